/** Count, mean and sum of squares about the mean. */
export interface Spread {
  readonly count: number;
  readonly mean: number;
  readonly squares: number;
}

/**
 * Count, mean and sum of squares about the mean of all blocks so far and one more.
 *
 * @param total - of the blocks so far
 * @param count - values in the new block
 * @param mean - of the new block
 * @param standardUncertainty - of the new block, with the divisor count - 1
 * @returns of all together
 *
 * Source: T. F. Chan, G. H. Golub and R. J. LeVeque, The American Statistician 37 (1983) 242-247 (from memory).
 */
export function pooledSpread(
  total: Spread,
  count: number,
  mean: number,
  standardUncertainty: number,
): Spread {
  const all = total.count + count;
  const shift = mean - total.mean;
  return {
    count: all,
    mean: total.mean + (shift * count) / all,
    squares:
      total.squares + standardUncertainty ** 2 * (count - 1) + (shift ** 2 * total.count * count) / all,
  };
}
