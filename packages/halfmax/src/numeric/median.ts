import { sortedCopy } from './sortedCopy.js';

/**
 * Median: the middle value, or the mean of the two middle ones.
 *
 * @param values - length >= 1; NaN is refused, not skipped
 * @returns in the unit of the values
 * @throws {RangeError} no values, or one that is not a number
 *
 * Cost: O(n log n).
 * @example
 * median([3, 1, 2, 10]); // => 2.5
 */
export function median(values: ArrayLike<number>): number {
  const sorted = sortedCopy('median', values);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
