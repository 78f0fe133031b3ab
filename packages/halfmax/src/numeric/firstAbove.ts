/**
 * Index of the first value above a limit, by halving.
 *
 * @param x - ascending
 * @param limit - in the unit of the values
 * @returns 0 to the length of x; the length where none is above
 * Cost: O(log n).
 * @example
 * firstAbove([1, 2, 4, 8], 2); // => 2
 */
export function firstAbove(x: ArrayLike<number>, limit: number): number {
  let low = 0;
  let high = x.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (x[middle]! > limit) high = middle;
    else low = middle + 1;
  }
  return low;
}
