import { sortedCopy } from './sortedCopy.js';

/**
 * Sample quantile with straight lines between the ordered values.
 *
 * @param values - length >= 1; NaN is refused, not skipped
 * @param p - probability, 0 to 1
 * @returns in the unit of the values; the smallest at p = 0, the largest at p = 1
 * @throws {RangeError} no values, one that is not a number, or p outside 0 to 1
 *
 * Source: Hyndman, Fan, Am. Stat. 50, 361 (1996), definition 7. Cost: O(n log n).
 * @example
 * quantile([1, 2, 3, 4], 0.5); // => 2.5
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`quantile requires p from 0 to 1, got ${p}`);
  const sorted = sortedCopy('quantile', values);
  const position = (sorted.length - 1) * p;
  const below = Math.floor(position);
  const fraction = position - below;
  if (fraction === 0) return sorted[below]!;
  return sorted[below]! + fraction * (sorted[below + 1]! - sorted[below]!);
}
