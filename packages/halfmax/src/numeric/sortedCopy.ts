/**
 * The values in ascending order, as a copy.
 *
 * @param caller - name of the function that asks, for the message
 * @param values - length >= 1, no NaN
 * @throws {RangeError} no values, or one that is not a number
 */
export function sortedCopy(caller: string, values: ArrayLike<number>): Float64Array {
  if (values.length === 0) throw new RangeError(`${caller} requires at least 1 value, got 0`);
  const sorted = Float64Array.from(values).sort();
  // The order of a typed array puts NaN last.
  if (Number.isNaN(sorted[sorted.length - 1]!)) {
    const index = Array.prototype.findIndex.call(values, (value) => Number.isNaN(Number(value)));
    throw new RangeError(`${caller} requires numbers, got NaN at index ${index}`);
  }
  return sorted;
}
