import { requireWeights } from './requireWeights.js';
import { covarianceFromInverse, weightedQr } from './weightedQr.js';

/** A weighted linear least-squares fit of n points by p coefficients. */
export interface LinearFit {
  /** Length p. */
  readonly coefficients: Float64Array;
  /**
   * (A'WA)^-1, p rows of p, not scaled: it is the covariance when the weights are 1/variance. Multiply by
   * residualStandardDeviation squared when only the relative size of the variances is known.
   */
  readonly covariance: Float64Array[];
  /** Measured minus fitted, in the unit of y, length n. */
  readonly residuals: Float64Array;
  /** Diagonal of the hat matrix, 0 to 1, length n; sums to p. */
  readonly leverage: Float64Array;
  /** Sum of weight times residual squared. */
  readonly weightedSumOfSquares: number;
  /** n - p. */
  readonly degreesOfFreedom: number;
  /** sqrt(weightedSumOfSquares / degreesOfFreedom); Infinity, "not known", without degrees of freedom. */
  readonly residualStandardDeviation: number;
}

/**
 * Weighted linear least squares: coefficients, covariance, residuals and leverage.
 *
 * Works on the QR factors of the design with its columns scaled to unit length, never on normal equations, and
 * corrects the coefficients once from their residuals.
 *
 * @param design - n rows of p numbers, n >= p
 * @param y - measured values, length n
 * @param weights - 1/variance of each value, each >= 0; all 1 when left out
 * @returns the fit, in the units of y and of the design
 * @throws {RangeError} arrays not as described, or columns that are not independent
 *
 * Source: Golub, Van Loan, Matrix Computations, section 5.3. Cost: O(n p^2).
 * @example
 * Array.from(fitLinear([[1, 0], [1, 1], [1, 2]], [1, 3, 5]).coefficients, Math.round); // => [1, 2]
 */
export function fitLinear(
  design: readonly ArrayLike<number>[],
  y: ArrayLike<number>,
  weights?: ArrayLike<number>,
): LinearFit {
  const n = design.length;
  const p = n === 0 ? 0 : design[0]!.length;
  if (p < 1 || n < p)
    throw new RangeError(`fitLinear requires at least as many rows as columns, got ${n} x ${p}`);
  if (y.length !== n) throw new RangeError(`fitLinear requires ${n} values, got ${y.length}`);
  const roots = requireWeights('fitLinear', weights, n);
  const weighted = new Float64Array(n * p);
  for (let i = 0; i < n; i++) {
    const row = design[i]!;
    if (row.length !== p)
      throw new RangeError(`fitLinear requires rows of ${p}, got ${row.length} at row ${i}`);
    for (let j = 0; j < p; j++) weighted[i * p + j] = row[j]! * roots[i]!;
  }
  const factors = weightedQr(weighted, p);
  if (factors === null)
    throw new RangeError('fitLinear requires independent finite columns, got dependent ones');
  const q = factors.orthogonal();

  const coefficients = new Float64Array(p);
  const residuals = Float64Array.from(y);
  // The second pass is one step of iterative refinement: it takes off the rounding of the first.
  for (let pass = 0; pass < 2; pass++) {
    const projected = new Float64Array(p);
    for (let i = 0; i < n; i++) {
      const value = residuals[i]! * roots[i]!;
      for (let j = 0; j < p; j++) projected[j]! += q[i]![j]! * value;
    }
    for (let j = 0; j < p; j++) {
      for (let k = j; k < p; k++) coefficients[j]! += factors.inverseR[j]![k]! * projected[k]!;
    }
    for (let i = 0; i < n; i++) {
      let fitted = 0;
      for (let j = 0; j < p; j++) fitted += design[i]![j]! * coefficients[j]!;
      residuals[i] = y[i]! - fitted;
    }
  }
  let weightedSumOfSquares = 0;
  for (let i = 0; i < n; i++) weightedSumOfSquares += (residuals[i]! * roots[i]!) ** 2;
  if (!Number.isFinite(weightedSumOfSquares))
    throw new RangeError('fitLinear requires finite values, got others');
  const degreesOfFreedom = n - p;
  return {
    coefficients,
    covariance: covarianceFromInverse(factors.inverseR),
    residuals,
    leverage: Float64Array.from(q, (row) => row.reduce((sum, value) => sum + value * value, 0)),
    weightedSumOfSquares,
    degreesOfFreedom,
    residualStandardDeviation:
      degreesOfFreedom > 0 ? Math.sqrt(weightedSumOfSquares / degreesOfFreedom) : Number.POSITIVE_INFINITY,
  };
}
