import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fitPolynomial } from '../../../packages/halfmax/src/numeric/index.js';

const data = JSON.parse(readFileSync(new URL('data.json', import.meta.url), 'utf8'));
const fit = fitPolynomial(data.pixel, data.wavelengthNm, data.degree, data);

/** Largest difference relative to the largest of the values expected. */
function worst(found: ArrayLike<number>, expected: number[]): number {
  const size = Math.max(...expected.map(Math.abs));
  return Math.max(...expected.map((value, i) => Math.abs(found[i]! - value) / size));
}

describe('a weighted cubic from pixel to wavelength, against exact rational arithmetic and numpy', () => {
  it.each([0, 1, 2, 3])('gives coefficient %i and its row of the covariance to 1e-9', (i) => {
    expect(Math.abs(fit.coefficients[i]! / data.expected.coefficients[i] - 1)).toBeLessThan(1e-9);
    for (let j = 0; j < 4; j++) {
      expect(Math.abs(fit.covariance[i]![j]! / data.expected.covariance[i][j] - 1)).toBeLessThan(1e-9);
    }
  });

  it('gives residuals, leverage and sum of squares', () => {
    // Residuals are differences of numbers near 700: 1e-13 of rounding in each, 1e-2 in size.
    expect(worst(fit.residuals, data.expected.residuals)).toBeLessThan(1e-10);
    expect(worst(fit.leverage, data.expected.leverage)).toBeLessThan(1e-12);
    expect(Math.abs(fit.weightedSumOfSquares / data.expected.weightedSumOfSquares - 1)).toBeLessThan(1e-10);
    expect(fit.degreesOfFreedom).toBe(20);
  });
});
