import { median } from './median.js';

/** 1 / (the 0.75 quantile of the normal distribution): makes the deviation estimate a standard deviation. */
const NORMAL_SCALE = 1.482602218505602;

/**
 * Median absolute deviation from the median, scaled to estimate the standard deviation of normal values.
 *
 * @param values - length >= 1; NaN is refused, not skipped
 * @returns >= 0, in the unit of the values
 * @throws {RangeError} no values, or one that is not a number
 *
 * Source: Rousseeuw, Croux, J. Am. Stat. Assoc. 88, 1273 (1993), factor 1.4826. Cost: O(n log n).
 * @example
 * medianAbsoluteDeviation([1, 2, 3, 4, 100]); // => 1.482602218505602
 */
export function medianAbsoluteDeviation(values: ArrayLike<number>): number {
  const middle = median(values);
  return NORMAL_SCALE * median(Float64Array.from(values, (value) => Math.abs(value - middle)));
}
