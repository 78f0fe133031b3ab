import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLinear } from './fitLinear.js';

const x = [0, 1, 2, 3, 5, 8];
const y = [1.2, 2.9, 5.1, 6.8, 11.2, 16.7];
const design = x.map((value) => [1, value]);

describe('fitLinear', () => {
  it('gives the closed form of a straight line', () => {
    const n = x.length;
    const [sx, sy] = [x.reduce((a, b) => a + b), y.reduce((a, b) => a + b)];
    const sxx = x.reduce((sum, value) => sum + value * value, 0);
    const sxy = x.reduce((sum, value, i) => sum + value * y[i]!, 0);
    const determinant = n * sxx - sx * sx;
    const fit = fitLinear(design, y);
    expect(fit.coefficients[0]).toBeCloseTo((sxx * sy - sx * sxy) / determinant, 12);
    expect(fit.coefficients[1]).toBeCloseTo((n * sxy - sx * sy) / determinant, 12);
    expect(fit.covariance[0]![0]).toBeCloseTo(sxx / determinant, 12);
    expect(fit.covariance[0]![1]).toBeCloseTo(-sx / determinant, 12);
    expect(fit.covariance[1]![1]).toBeCloseTo(n / determinant, 12);
    fit.leverage.forEach(
      (h, i) => void expect(h).toBeCloseTo((sxx - 2 * x[i]! * sx + n * x[i]! ** 2) / determinant, 12),
    );
    expect(fit.degreesOfFreedom).toBe(4);
    expect(fit.residualStandardDeviation).toBeCloseTo(Math.sqrt(fit.weightedSumOfSquares / 4), 12);
  });

  it('counts a value of weight 3 as three values', () => {
    const weighted = fitLinear(design, y, [1, 1, 3, 1, 1, 1]);
    const repeated = fitLinear([...design, design[2]!, design[2]!], [...y, y[2]!, y[2]!]);
    for (let a = 0; a < 2; a++) {
      expect(weighted.coefficients[a]).toBeCloseTo(repeated.coefficients[a]!, 12);
      for (let b = 0; b < 2; b++)
        expect(weighted.covariance[a]![b]).toBeCloseTo(repeated.covariance[a]![b]!, 12);
    }
  });

  it('leaves a value of weight 0 out of all but the residuals', () => {
    const fit = fitLinear(design, [...y.slice(0, 5), 1e6], [1, 1, 1, 1, 1, 0]);
    const without = fitLinear(design.slice(0, 5), y.slice(0, 5));
    expect(fit.coefficients[1]).toBeCloseTo(without.coefficients[1]!, 10);
    expect(fit.leverage[5]).toBe(0);
    expect(fit.residuals[5]).toBeGreaterThan(9e5);
  });

  it('has residuals without a share in any column, and leverages that sum to p', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 4, maxLength: 12 }),
        (values) => {
          const rows = values.map((_, i) => [1, i, i * i * 0.1]);
          const fit = fitLinear(rows, values);
          for (let j = 0; j < 3; j++) {
            expect(Math.abs(rows.reduce((sum, row, i) => sum + row[j]! * fit.residuals[i]!, 0))).toBeLessThan(
              1e-9,
            );
          }
          expect(fit.leverage.reduce((a, b) => a + b)).toBeCloseTo(3, 10);
        },
      ),
    );
  });

  it('does not care for the unit of a column or of the values', () => {
    const fit = fitLinear(design, y);
    const other = fitLinear(
      design.map(([one, value]) => [one!, value! * 1e9]),
      y.map((value) => value * 1e-6),
    );
    expect((other.coefficients[1]! * 1e15) / fit.coefficients[1]!).toBeCloseTo(1, 12);
    expect((other.covariance[1]![1]! * 1e18) / fit.covariance[1]![1]!).toBeCloseTo(1, 12);
  });

  it('says that the scatter is not known without degrees of freedom', () => {
    expect(
      fitLinear(
        [
          [1, 0],
          [1, 1],
        ],
        [1, 2],
      ).residualStandardDeviation,
    ).toBe(Number.POSITIVE_INFINITY);
  });

  it('does not alter its arguments', () => {
    const rows = design.map((row) => Object.freeze([...row]));
    fitLinear(Object.freeze(rows), Object.freeze([...y]), Object.freeze([1, 2, 1, 2, 1, 2]));
  });

  it.each([
    ['rows too few', [[1, 2]], [1], undefined, 'at least as many rows'],
    ['no rows', [], [], undefined, 'at least as many rows'],
    ['values too few', design, [1, 2], undefined, 'requires 6 values, got 2'],
    ['a short row', [[1, 2], [1], [1, 3]], [1, 2, 3], undefined, 'got 1 at row 1'],
    [
      'columns that depend',
      [
        [1, 2],
        [2, 4],
        [3, 6],
      ],
      [1, 2, 3],
      undefined,
      'independent',
    ],
    [
      'a column of zeros',
      [
        [1, 0],
        [2, 0],
        [3, 0],
      ],
      [1, 2, 3],
      undefined,
      'independent',
    ],
    [
      'NaN in the design',
      [
        [1, 0],
        [2, Number.NaN],
        [3, 0],
      ],
      [1, 2, 3],
      undefined,
      'independent finite',
    ],
    ['NaN in the values', design, [1, 2, Number.NaN, 4, 5, 6], undefined, 'finite values'],
    ['a negative weight', design, y, [1, 1, -1, 1, 1, 1], 'got -1 at index 2'],
    ['weights too few', design, y, [1], 'requires 6 weights, got 1'],
  ])('refuses %s', (_, rows, values, weights, message) => {
    expect(() => fitLinear(rows, values, weights)).toThrow(RangeError);
    expect(() => fitLinear(rows, values, weights)).toThrow(message);
  });
});
