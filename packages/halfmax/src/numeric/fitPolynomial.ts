import { fitLinear, type LinearFit } from './fitLinear.js';

/** How to fit a polynomial. */
export interface PolynomialOptions {
  /** 1/variance of each value, each >= 0; all 1 when left out. */
  readonly weights?: ArrayLike<number>;
  /** Where t = 0, in the unit of x. @default middle of the range of x */
  readonly pivot?: number;
  /** Step of t in the unit of x, not 0. @default half the range of x, or 1 when that is 0 */
  readonly scale?: number;
}

/** A polynomial in t = (x - pivot) / scale: coefficients and covariance in ascending powers of t. */
export interface PolynomialFit extends LinearFit {
  readonly pivot: number;
  readonly scale: number;
}

/**
 * Weighted least-squares polynomial with the covariance of its coefficients.
 *
 * Powers of raw x lose six to nine digits, so the fit is made in Chebyshev polynomials of x scaled to -1 .. 1 and
 * its result rewritten in powers of t.
 *
 * @param x - abscissas, length n > degree, with more than `degree` different values of positive weight
 * @param y - measured values, length n
 * @param degree - whole number >= 0
 * @param options - weights, pivot, scale
 * @returns the fit; coefficients in the unit of y
 * @throws {RangeError} arrays or options not as described
 *
 * Source: Mason, Handscomb, Chebyshev Polynomials (2003), for the basis. Cost: O(n p^2 + p^3).
 * @example
 * const fit = fitPolynomial([0, 1, 2, 3], [1, 2, 5, 10], 2, { pivot: 0, scale: 1 });
 * Array.from(fit.coefficients, (c) => Math.round(c)); // => [1, 0, 1]
 */
export function fitPolynomial(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  degree: number,
  options: PolynomialOptions = {},
): PolynomialFit {
  if (!Number.isInteger(degree) || degree < 0) {
    throw new RangeError(`fitPolynomial requires a whole degree of at least 0, got ${degree}`);
  }
  if (x.length <= degree)
    throw new RangeError(`fitPolynomial requires more than ${degree} points, got ${x.length}`);
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i]!))
      throw new RangeError(`fitPolynomial requires finite x, got ${x[i]} at index ${i}`);
    lowest = Math.min(lowest, x[i]!);
    highest = Math.max(highest, x[i]!);
  }
  const middle = (lowest + highest) / 2;
  const half = (highest - lowest) / 2 || 1;
  const pivot = options.pivot ?? middle;
  const scale = options.scale ?? half;
  if (!Number.isFinite(pivot) || !Number.isFinite(scale) || scale === 0) {
    throw new RangeError(
      `fitPolynomial requires a finite pivot and a scale other than 0, got ${pivot}, ${scale}`,
    );
  }
  const design = Array.from(x, (value) => chebyshevRow((value - middle) / half, degree));
  const fit = fitLinear(design, y, options.weights);
  const change = chebyshevInPowers(degree, (pivot - middle) / half, scale / half);
  const p = degree + 1;
  const coefficients = new Float64Array(p);
  const covariance = Array.from({ length: p }, () => new Float64Array(p));
  for (let i = 0; i < p; i++) {
    for (let a = 0; a < p; a++) coefficients[i]! += change[a]![i]! * fit.coefficients[a]!;
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let a = 0; a < p; a++) {
        for (let b = 0; b < p; b++) sum += change[a]![i]! * fit.covariance[a]![b]! * change[b]![j]!;
      }
      covariance[i]![j] = sum;
      covariance[j]![i] = sum;
    }
  }
  return { ...fit, coefficients, covariance, pivot, scale };
}

function chebyshevRow(s: number, degree: number): Float64Array {
  const row = new Float64Array(degree + 1);
  row[0] = 1;
  if (degree > 0) row[1] = s;
  for (let k = 2; k <= degree; k++) row[k] = 2 * s * row[k - 1]! - row[k - 2]!;
  return row;
}

/** Row k: the coefficients of T_k(offset + slope t) in ascending powers of t. */
function chebyshevInPowers(degree: number, offset: number, slope: number): Float64Array[] {
  const rows = Array.from({ length: degree + 1 }, () => new Float64Array(degree + 1));
  rows[0]![0] = 1;
  if (degree > 0) {
    rows[1]![0] = offset;
    rows[1]![1] = slope;
  }
  for (let k = 2; k <= degree; k++) {
    for (let j = 0; j <= k; j++) {
      const shifted = j === 0 ? 0 : slope * rows[k - 1]![j - 1]!;
      rows[k]![j] = 2 * (offset * rows[k - 1]![j]! + shifted) - rows[k - 2]![j]!;
    }
  }
  return rows;
}
