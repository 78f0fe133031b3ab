/**
 * How bright the brightest place of a frame is: the largest median of three neighbouring pixels, which a hit on
 * a single pixel cannot raise. It sees a lamp with few lines and a narrow filter as well as an open beam.
 *
 * @param counts - counts above dark; NaN is passed over
 * @returns counts; -Infinity where no three neighbours are defined
 * Source: running median of three after J. W. Tukey, Exploratory Data Analysis (1977), from memory. Cost: O(n).
 * @example
 * brightestCounts(Float64Array.of(0, 900, 0, 0, 10, 30, 20, 0)); // => 20
 */
export function brightestCounts(counts: Float64Array): number {
  let best = Number.NEGATIVE_INFINITY;
  for (let i = 1; i + 1 < counts.length; i++) {
    const a = counts[i - 1]!;
    const b = counts[i]!;
    const c = counts[i + 1]!;
    const middle = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    if (middle > best) best = middle;
  }
  return best;
}
