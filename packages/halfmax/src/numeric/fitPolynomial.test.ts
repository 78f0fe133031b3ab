import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluatePolynomial } from './evaluatePolynomial.js';
import { fitPolynomial } from './fitPolynomial.js';
import { randomStream } from './randomStream.js';

const x = Float64Array.from({ length: 30 }, (_, i) => 100 + 61.3 * i + 7 * Math.sin(i));
const stream = randomStream(11);
const y = x.map((value) => 350 + 0.2 * value - 1e-6 * value ** 2 + 0.01 * stream.normal());

/** Fitted value and its unscaled variance at a place. */
function predict(fit: ReturnType<typeof fitPolynomial>, at: number): [number, number] {
  const t = (at - fit.pivot) / fit.scale;
  const powers = Array.from(fit.coefficients, (_, k) => t ** k);
  const variance = powers.reduce(
    (sum, a, i) => sum + powers.reduce((s, b, j) => s + a * b * fit.covariance[i]![j]!, 0),
    0,
  );
  return [evaluatePolynomial(fit.coefficients, t), variance];
}

describe('fitPolynomial', () => {
  it('returns a polynomial that was put in', () => {
    const coefficients = [3, -2, 0.5, 4, -1];
    const t = Array.from({ length: 9 }, (_, i) => -1 + i / 4);
    const fit = fitPolynomial(
      t,
      t.map((v) => evaluatePolynomial(coefficients, v)),
      4,
      { pivot: 0, scale: 1 },
    );
    coefficients.forEach((value, k) => void expect(fit.coefficients[k]).toBeCloseTo(value, 12));
  });

  it('takes the middle of the range and half of it where no pivot and scale are given', () => {
    const fit = fitPolynomial([2, 4, 12], [1, 2, 3], 1);
    expect([fit.pivot, fit.scale]).toEqual([7, 5]);
  });

  it('predicts the same value and variance about any pivot and scale', () => {
    const reference = fitPolynomial(x, y, 3);
    fc.assert(
      fc.property(
        fc.double({ min: -2000, max: 4000, noNaN: true }),
        fc.double({ min: 500, max: 3000, noNaN: true }),
        (pivot, scale) => {
          const fit = fitPolynomial(x, y, 3, { pivot, scale });
          for (const at of [150, 900, 1800]) {
            const [value, variance] = predict(fit, at);
            const [expected, expectedVariance] = predict(reference, at);
            expect(Math.abs(value - expected)).toBeLessThan(1e-9);
            expect(Math.abs(variance / expectedVariance - 1)).toBeLessThan(1e-6); // far pivots cancel six digits
          }
        },
      ),
      { numRuns: 50 },
    );
  });

  it('moves and stretches with x and y', () => {
    const fit = fitPolynomial(x, y, 3);
    const moved = fitPolynomial(
      x.map((v) => 5 - 3 * v),
      y.map((v) => 7 * v),
      3,
    );
    fit.coefficients.forEach(
      (c, k) => void expect(moved.coefficients[k]! / (7 * c * (-1) ** k)).toBeCloseTo(1, 8),
    );
    expect(moved.weightedSumOfSquares / fit.weightedSumOfSquares).toBeCloseTo(49, 8);
  });

  it('has the leverage that its own covariance gives', () => {
    const fit = fitPolynomial(x, y, 3);
    x.forEach((at, i) => void expect(predict(fit, at)[1]).toBeCloseTo(fit.leverage[i]!, 10));
  });

  it.each([
    ['too few points', [1, 2], 2, {}, 'more than 2 points, got 2'],
    ['a broken degree', [1, 2, 3], 1.5, {}, 'whole degree'],
    ['the same x throughout', [2, 2, 2], 1, {}, 'independent'],
    ['NaN in x', [1, Number.NaN, 3], 1, {}, 'at index 1'],
    ['a scale of 0', [1, 2, 3], 1, { scale: 0 }, 'scale other than 0'],
  ])('refuses %s', (_, places, degree, options, message) => {
    expect(() => fitPolynomial(places, [1, 2, 3].slice(0, places.length), degree, options)).toThrow(message);
  });
});
