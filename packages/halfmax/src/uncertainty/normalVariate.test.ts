import { describe, expect, it } from 'vitest';
import { normalCdf, randomStream } from '../numeric/index.js';
import { layers, normalVariate } from './normalVariate.js';

const DRAWS = 2_000_000;

describe('normalVariate', () => {
  const stream = randomStream(11);
  const values = Float64Array.from({ length: DRAWS }, () => normalVariate(stream));

  it('has layers that fill the bell to its top', () => {
    // Rounding of 256 sums and logarithms.
    expect(Math.abs(layers().gap)).toBeLessThan(1e-12);
  });

  it('has the moments of the normal distribution', () => {
    // Moments 1, 3 are 0, moments 2, 4, 6 are 1, 3, 15; their variances follow from moments 2, 4 to 12.
    const even = [1, 1, 3, 15, 105, 945, 10395];
    for (let power = 1; power <= 6; power++) {
      const expected = power % 2 === 1 ? 0 : even[power / 2]!;
      const standardError = Math.sqrt((even[power]! - expected ** 2) / DRAWS);
      const found = values.reduce((sum, value) => sum + value ** power, 0) / DRAWS;
      expect(Math.abs(found - expected) / standardError).toBeLessThan(4);
    }
  });

  it('follows the normal distribution everywhere (Kolmogorov-Smirnov)', () => {
    const sorted = values.slice().sort();
    let distance = 0;
    for (let i = 0; i < DRAWS; i++) {
      const below = normalCdf(sorted[i]!);
      distance = Math.max(distance, Math.abs(below - i / DRAWS), Math.abs(below - (i + 1) / DRAWS));
    }
    // 1.95 / sqrt(M) is passed by chance in one case of 1000 (asymptotic law of the statistic).
    expect(distance).toBeLessThan(1.95 / Math.sqrt(DRAWS));
  });

  it.each([3, 3.5, 3.654152885361009, 4, 4.5])('has the right share beyond %f on both sides', (edge) => {
    const expected = 2 * DRAWS * normalCdf(-edge);
    const found = values.filter((value) => Math.abs(value) > edge).length;
    expect(Math.abs(found - expected)).toBeLessThan(4 * Math.sqrt(expected));
    const right = values.filter((value) => value > edge).length;
    expect(Math.abs(right - expected / 2)).toBeLessThan(4 * Math.sqrt(expected / 2));
  });

  it('gives neighbours that do not depend on one another', () => {
    let sum = 0;
    let squares = 0;
    for (let i = 1; i < DRAWS; i++) {
      sum += values[i]! * values[i - 1]!;
      squares += (values[i]! ** 2 - 1) * (values[i - 1]! ** 2 - 1);
    }
    expect(Math.abs(sum / DRAWS)).toBeLessThan(4 / Math.sqrt(DRAWS));
    expect(Math.abs(squares / DRAWS)).toBeLessThan((4 * 2) / Math.sqrt(DRAWS));
  });
});
