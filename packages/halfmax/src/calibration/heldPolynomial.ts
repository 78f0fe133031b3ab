import { fitLinear } from '../numeric/index.js';

/**
 * Largest coefficient of each order against that of the first, for a grating at 0.2 rad half field and 25 degrees of
 * diffraction (expansion of the grating equation): what a scale may hide in an order that was not fitted.
 */
export const ORDER_LIMITS: readonly number[] = [0, 1, 0.2, 0.02, 1.5e-3, 3e-4, 5e-5];

/** A fit to the lines; orders above the first are held by what a grating can do where the lines say too little. */
export interface HeldFit {
  readonly coefficients: Float64Array;
  readonly covariance: readonly Float64Array[];
  /** Measured minus fitted, one per line. */
  readonly residuals: Float64Array;
  readonly leverage: Float64Array;
  /** 1/variance of each line as given. */
  readonly weights: Float64Array;
  readonly weightedSumOfSquares: number;
  /** Lines less the parameters that the lines themselves determine. */
  readonly degreesOfFreedom: number;
}

/**
 * Weighted least squares of a polynomial in t whose orders above the first are held towards zero within
 * {@link ORDER_LIMITS}: with many lines the hold is not felt, with few it stands in for those that are missing.
 *
 * @param design - one row per line: powers of t from 0 to order, then any further columns
 * @param order - highest power
 * @param y - wavelengths, nm
 * @param weights - 1/variance of each line, 1/nm^2
 * @param halfSpanNm - half the span of the scale: the size of the first order's coefficient
 * @returns the fit
 */
export function fitHeldPolynomial(
  design: readonly (readonly number[])[],
  order: number,
  y: readonly number[],
  weights: Float64Array,
  halfSpanNm: number,
): HeldFit {
  const n = design.length;
  const columns = design[0]!.length;
  const held = Array.from({ length: Math.max(0, order - 1) }, (_, k) => k + 2);
  const fit = fitLinear(
    [...design, ...held.map((power) => Array.from({ length: columns }, (_, k) => (k === power ? 1 : 0)))],
    [...y, ...held.map(() => 0)],
    [...weights, ...held.map((power) => 1 / (ORDER_LIMITS[power]! * halfSpanNm) ** 2)],
  );
  const residuals = fit.residuals.slice(0, n);
  const leverage = fit.leverage.slice(0, n);
  return {
    coefficients: fit.coefficients,
    covariance: fit.covariance,
    residuals,
    leverage,
    weights,
    weightedSumOfSquares: residuals.reduce((sum, residual, i) => sum + residual ** 2 * weights[i]!, 0),
    degreesOfFreedom: n - leverage.reduce((sum, value) => sum + value, 0),
  };
}
