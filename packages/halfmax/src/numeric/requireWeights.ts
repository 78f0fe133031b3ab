/**
 * Square roots of weights, checked; ones when there are none.
 *
 * @param caller - name of the function that asks, for the message
 * @param weights - 1/variance, each finite and >= 0, or undefined
 * @param length - how many there must be
 * @returns square roots, length as asked
 * @throws {RangeError} wrong length, or a weight that is negative or not finite
 */
export function requireWeights(
  caller: string,
  weights: ArrayLike<number> | undefined,
  length: number,
): Float64Array {
  const roots = new Float64Array(length).fill(1);
  if (weights === undefined) return roots;
  if (weights.length !== length)
    throw new RangeError(`${caller} requires ${length} weights, got ${weights.length}`);
  for (let i = 0; i < length; i++) {
    const weight = weights[i]!;
    if (!(weight >= 0 && weight < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`${caller} requires finite weights of at least 0, got ${weight} at index ${i}`);
    }
    roots[i] = Math.sqrt(weight);
  }
  return roots;
}
