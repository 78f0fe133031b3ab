import { selectOrder } from './selectOrder.js';

/**
 * Median of numbers by selection; values that are not numbers are left out.
 *
 * @param values - any length
 * @returns the median, NaN where there is no number
 */
export function medianOf(values: ArrayLike<number>): number {
  const list = new Float64Array(values.length);
  let n = 0;
  for (let k = 0; k < values.length; k++) if (!Number.isNaN(values[k]!)) list[n++] = values[k]!;
  if (n === 0) return Number.NaN;
  const half = n >> 1;
  const upper = selectOrder(list, 0, n, half);
  if (n % 2 === 1) return upper;
  let lower = list[0]!;
  for (let k = 1; k < half; k++) if (list[k]! > lower) lower = list[k]!;
  return (upper + lower) / 2;
}
