import type { Curve } from '../metrics/index.js';

/** Trials of a stretch of a curve, such as draws of a fitted band: they stand in for the noise of its pixels. */
export interface StretchTrials {
  /** First pixel of the stretch within the curve. */
  readonly from: number;
  /** A trial each, all of one length. */
  readonly values: readonly Float64Array[];
}

/**
 * Makes the function that writes a trial of each stretch over drawn pixels.
 *
 * @param curve - the whole curve
 * @param pixels - a part of it, from `pixelsBetween`
 * @param trials - stretches of the whole curve
 * @returns writes into values on those pixels: `place`, 0 to below 1, picks the trial, the same of every stretch; null
 *   where no stretch reaches the part
 */
export function trialOverlay(
  curve: Curve,
  pixels: Curve,
  trials: readonly StretchTrials[],
): ((values: Float64Array, place: number) => void) | null {
  const first = curve.wavelengthNm.indexOf(pixels.wavelengthNm[0]!);
  const end = first + pixels.wavelengthNm.length;
  const inside = trials.flatMap(({ from, values }) => {
    const start = Math.max(from, first);
    const stop = Math.min(from + (values[0]?.length ?? 0), end);
    return stop > start ? [{ from, values, start, stop }] : [];
  });
  if (inside.length === 0) return null;
  return (out, place) => {
    for (const { from, values, start, stop } of inside) {
      const trial = values[Math.min(values.length - 1, Math.floor(place * values.length))]!;
      for (let i = start; i < stop; i++) out[i - first] = trial[i - from]!;
    }
  };
}
