import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  normalCdf,
  normalQuantile,
  studentCdf,
  studentQuantile,
} from '../../../packages/halfmax/src/numeric/index.js';

type Row = [number, number, number];
const data = JSON.parse(readFileSync(new URL('data.json', import.meta.url), 'utf8'));
const relative = (found: number, expected: number): number =>
  expected === 0 ? Math.abs(found) : Math.abs(found / expected - 1);

describe('normal distribution', () => {
  // 1e-14 of itself: some 50 units in the last place, most of them from the exponential far out.
  it.each(data.normalCdf as Row[])('normalCdf(%d), against 60 digits', (z, expected) => {
    expect(relative(normalCdf(z), expected)).toBeLessThan(2e-14);
  });

  it.each(data.normalQuantile as Row[])('normalQuantile(%d), against scipy', (p, expected) => {
    expect(relative(normalQuantile(p), expected)).toBeLessThan(1e-14);
  });
});

describe('Student distribution', () => {
  it.each(data.studentCdf as Row[])('studentCdf(%d, %d), against scipy', (t, dof, expected) => {
    expect(relative(studentCdf(t, dof), expected)).toBeLessThan(1e-13);
  });

  // The inverse of this scipy is itself right to some 4e-9 only, as the closed forms show.
  it.each(data.studentQuantile as Row[])(
    'studentQuantile(%d, %d), against scipy and its own inverse',
    (p, dof, expected) => {
      const found = studentQuantile(p, dof);
      expect(relative(found, expected)).toBeLessThan(1e-8);
      // The probability gathers rounding over O(sqrt(dof)) terms.
      expect(relative(studentCdf(found, dof), p)).toBeLessThan(dof > 2000 ? 2e-12 : 2e-13);
    },
  );

  it.each([1e-12, 1e-6, 0.01, 0.1, 0.3, 0.49, 0.8, 0.975])(
    'has its closed forms for 1, 2 and 4 degrees of freedom at %d',
    (p) => {
      const alpha = 4 * p * (1 - p);
      const sign = Math.sign(p - 0.5);
      expect(
        relative(
          studentQuantile(p, 1),
          p < 0.5 ? -1 / Math.tan(Math.PI * p) : 1 / Math.tan(Math.PI * (1 - p)),
        ),
      ).toBeLessThan(1e-13);
      expect(relative(studentQuantile(p, 2), ((2 * p - 1) * Math.SQRT2) / Math.sqrt(alpha))).toBeLessThan(
        1e-13,
      );
      const q = Math.cos(Math.acos(Math.sqrt(alpha)) / 3) / Math.sqrt(alpha);
      if (p > 0.01) expect(relative(studentQuantile(p, 4), sign * 2 * Math.sqrt(q - 1))).toBeLessThan(1e-12);
    },
  );
});
