import { describe, expect, it } from 'vitest';
import { normalCdf, normalDensity } from './normalCdf.js';
import { normalQuantile } from './normalQuantile.js';
import { studentCdf } from './studentCdf.js';
import { studentQuantile } from './studentQuantile.js';

// Values against scipy and in many digits: tests/reference/distributions.
describe('normal and Student distributions', () => {
  it('are symmetric, with their limits', () => {
    for (const z of [0.1, 1, 2.5, 7]) expect(normalCdf(z) + normalCdf(-z)).toBeCloseTo(1, 15);
    expect([normalCdf(-Infinity), normalCdf(0), normalCdf(Infinity)]).toEqual([0, 0.5, 1]);
    expect([normalQuantile(0), normalQuantile(0.5), normalQuantile(1)]).toEqual([-Infinity, 0, Infinity]);
    expect([studentQuantile(0, 3), studentQuantile(0.5, 3), studentQuantile(1, 3)]).toEqual([
      -Infinity,
      0,
      Infinity,
    ]);
    expect(studentQuantile(0.9, 5)).toBe(-studentQuantile(1 - 0.9, 5));
  });

  it('are continuous where one formula hands over to the next', () => {
    expect(normalCdf(-2 + 1e-12) / normalCdf(-2 - 1e-12)).toBeCloseTo(1, 11);
    for (const dof of [9999, 10001, 99999, 100001]) {
      expect(studentQuantile(0.975, dof)).toBeCloseTo(normalQuantile(0.975) + 2.3722711 / dof, 6);
    }
    expect(studentQuantile(0.3, Infinity)).toBeCloseTo(normalQuantile(0.3), 14);
    expect(studentCdf(-1.2, Infinity)).toBe(normalCdf(-1.2));
  });

  it('have the density as slope', () => {
    for (const z of [-5, -1, 0.3]) {
      expect((normalCdf(z + 1e-4) - normalCdf(z - 1e-4)) / 2e-4 / normalDensity(z)).toBeCloseTo(1, 6);
    }
  });

  it('refuse what has no answer', () => {
    expect(() => normalQuantile(1.1)).toThrow('got 1.1');
    expect(() => normalCdf(Number.NaN)).toThrow(RangeError);
    expect(() => studentQuantile(0.5, 0)).toThrow('dof > 0');
    expect(() => studentQuantile(-0.5, 2)).toThrow(RangeError);
    expect(() => studentCdf(Number.NaN, 2)).toThrow(RangeError);
  });
});
