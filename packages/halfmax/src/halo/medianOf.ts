import { selectOrder } from './selectOrder.js';

/**
 * Median of numbers by selection; values that are not numbers are left out.
 *
 * @param values - any length
 * @returns the median, NaN where there is no number
 */
export function medianOf(values: readonly number[]): number {
  const list = Float64Array.from(values.filter((value) => !Number.isNaN(value)));
  if (list.length === 0) return Number.NaN;
  const half = list.length >> 1;
  const upper = selectOrder(list, 0, list.length, half);
  if (list.length % 2 === 1) return upper;
  return (upper + selectOrder(list, 0, half, half - 1)) / 2;
}
