/**
 * Counts as a linear detector would have given them: measured x (p0 + p1 measured + p2 measured^2 ...).
 *
 * @param counts - raw counts as in the file, offset and dark still in; NaN stays NaN
 * @param linearity - p0, p1, ... ascending; null leaves the counts as they are
 * @returns new array of the same length, counts
 * Source: form of the correction as the session format states it; size of the effect (up to 5 %) after
 * Sensors 19, 2833 (2019), doi:10.3390/s19122833. Cost: O(n x degree).
 * @example
 * lineariseCounts(Float64Array.of(1000), [1, 1e-5]); // => Float64Array [ 1010 ]
 */
export function lineariseCounts(counts: Float64Array, linearity: readonly number[] | null): Float64Array {
  if (linearity === null || linearity.length === 0) return counts.slice();
  const out = new Float64Array(counts.length);
  for (let i = 0; i < counts.length; i++) {
    const measured = counts[i]!;
    let factor = 0;
    for (let k = linearity.length - 1; k >= 0; k--) factor = factor * measured + linearity[k]!;
    out[i] = measured * factor;
  }
  return out;
}
