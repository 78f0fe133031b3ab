/**
 * The median of several frames, pixel by pixel.
 *
 * @param frames - one array per frame, equal lengths; NaN is left out of the median of its pixel
 * @param leftOut - index of a frame not to be used, to compare that frame with its fellows
 * @returns counts; NaN where no frame has a value
 * @throws {RangeError} no frame at all
 * Cost: O(pixels x frames^2) by insertion, small for the tens of frames of an entry.
 * @example
 * medianFrame([Float64Array.of(1), Float64Array.of(2), Float64Array.of(9)]); // => Float64Array [ 2 ]
 */
export function medianFrame(frames: readonly Float64Array[], leftOut = -1): Float64Array {
  const used = frames.filter((_, k) => k !== leftOut);
  if (used.length === 0) throw new RangeError('medianFrame requires at least 1 frame, got 0');
  const pixels = used[0]!.length;
  const out = new Float64Array(pixels);
  const sorted = new Float64Array(used.length);
  for (let i = 0; i < pixels; i++) {
    let n = 0;
    for (const frame of used) {
      const value = frame[i]!;
      if (Number.isNaN(value)) continue;
      let k = n++;
      while (k > 0 && sorted[k - 1]! > value) {
        sorted[k] = sorted[k - 1]!;
        k--;
      }
      sorted[k] = value;
    }
    const half = n >> 1;
    out[i] = n === 0 ? Number.NaN : n % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
  }
  return out;
}
