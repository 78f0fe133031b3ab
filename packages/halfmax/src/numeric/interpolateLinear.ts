/**
 * Value at a place on the straight lines between samples.
 *
 * @param x - strictly increasing, length n >= 1
 * @param y - length n
 * @param at - from x[0] to x[n - 1]
 * @returns in the unit of y; a sample itself where `at` meets it
 * @throws {RangeError} lengths that differ, no samples, or `at` outside of x or NaN
 *
 * Cost: O(log n); that x increases is the caller's word.
 * @example
 * interpolateLinear([1, 2, 4], [10, 20, 40], 3); // => 30
 */
export function interpolateLinear(x: ArrayLike<number>, y: ArrayLike<number>, at: number): number {
  const last = x.length - 1;
  if (last < 0 || y.length !== x.length) {
    throw new RangeError(
      `interpolateLinear requires x and y of one length of at least 1, got ${x.length} and ${y.length}`,
    );
  }
  if (!(at >= x[0]! && at <= x[last]!)) {
    throw new RangeError(`interpolateLinear requires a place from ${x[0]} to ${x[last]}, got ${at}`);
  }
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle]! <= at) low = middle;
    else high = middle;
  }
  if (at === x[low]!) return y[low]!;
  if (at === x[high]!) return y[high]!;
  const fraction = (at - x[low]!) / (x[high]! - x[low]!);
  return y[low]! + fraction * (y[high]! - y[low]!);
}
