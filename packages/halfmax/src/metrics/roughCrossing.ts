/**
 * Walks from a pixel in one direction to the place where the values first fall below a level.
 *
 * @param wavelengthNm - strictly increasing
 * @param values - one per wavelength
 * @param start - index to start from
 * @param step - +1 towards the red, -1 towards the blue
 * @param level - the level
 * @param last - index not to go beyond
 * @returns the crossing by a straight line, nm, or null where the values stay above
 */
export function roughCrossing(
  wavelengthNm: Float64Array,
  values: Float64Array,
  start: number,
  step: 1 | -1,
  level: number,
  last: number,
): number | null {
  for (let i = start; i !== last; i += step) {
    const here = values[i]!;
    const next = values[i + step]!;
    if (next < level && here >= level) {
      const share = (here - level) / (here - next);
      return wavelengthNm[i]! + share * (wavelengthNm[i + step]! - wavelengthNm[i]!);
    }
  }
  return null;
}

/** Running median of three of the trusted pixels, the others filled in by straight lines: takes single spikes away. */
export function runningMedian3(
  wavelengthNm: Float64Array,
  values: Float64Array,
  trust: Float64Array,
): Float64Array {
  const n = values.length;
  const filled = Float64Array.from(values);
  for (let i = 1; i < n - 1; i++) {
    if (trust[i]! > 0) continue;
    const share = (wavelengthNm[i]! - wavelengthNm[i - 1]!) / (wavelengthNm[i + 1]! - wavelengthNm[i - 1]!);
    filled[i] = values[i - 1]! + share * (values[i + 1]! - values[i - 1]!);
  }
  const result = Float64Array.from(filled);
  for (let i = 1; i < n - 1; i++) {
    const a = filled[i - 1]!;
    const b = filled[i]!;
    const c = filled[i + 1]!;
    result[i] = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
  }
  return result;
}
