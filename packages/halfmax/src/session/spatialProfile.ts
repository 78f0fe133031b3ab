import { median, medianAbsoluteDeviation } from '../numeric/index.js';

/** Height over the noise of the dark rows from which on light counts as found. */
export const leastHeight = 10;

/**
 * Level and noise of the darker half of a profile's rows.
 *
 * @param profile - light per row, finite, at least 2 rows
 * @returns median and scaled median absolute deviation, in the unit of the profile
 */
export function groundOf(profile: Float64Array): { ground: number; noise: number } {
  const dark = profile
    .slice()
    .sort()
    .subarray(0, Math.max(2, profile.length >> 1));
  return { ground: median(dark), noise: medianAbsoluteDeviation(dark) };
}

/**
 * Running mean of a profile over an eighth of the width of its light, so that the ragged top of a high slit does not
 * pass for its edge. Narrow profiles stay as they are.
 *
 * @param profile - light per row; NaN where unknown, left out of the means
 * @param ground - level without light
 * @param height - of the top above it
 * @returns a new profile
 */
export function smoothProfile(profile: Float64Array, ground: number, height: number): Float64Array {
  let width = 0;
  for (const value of profile) if (value - ground > 0.2 * height) width += (value - ground) / height;
  const half = Math.floor(width / 16);
  if (half === 0) return profile;
  return profile.map((value, i) => {
    if (Number.isNaN(value)) return value;
    let sum = 0;
    let seen = 0;
    for (let k = Math.max(0, i - half); k <= Math.min(profile.length - 1, i + half); k++) {
      if (Number.isNaN(profile[k]!)) continue;
      sum += profile[k]!;
      seen++;
    }
    return sum / seen;
  });
}

/** Index of the largest value; NaN is never the largest. */
export function topOf(profile: Float64Array): number {
  let top = -1;
  for (let r = 0; r < profile.length; r++) {
    if (!Number.isNaN(profile[r]!) && (top < 0 || profile[r]! > profile[top]!)) top = r;
  }
  return top;
}
