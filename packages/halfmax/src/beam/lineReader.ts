import type { Curve } from '../metrics/index.js';
import { pixelsBetween } from './pixelsBetween.js';
import { rayReader } from './rayReader.js';
import type { BeamRays } from './types.js';

/** The pixels that a line needs in a beam, and how trial values on them are read. */
export interface LineReader {
  readonly pixels: Curve;
  /** Mean over the rays of trial transmittances on those pixels; NaN where a ray needs light from beyond them. */
  readonly read: (values: ArrayLike<number>, atNm: number, rays: BeamRays, effectiveIndex: number) => number;
}

/**
 * Makes a reader of one line in a beam: worked out once, it serves any transmittances on the same pixels.
 *
 * @param curve - transmittance, straight between its pixels
 * @param wavelengthNm - the line, air, nm
 * @param rays - the beam
 * @param leastIndex - the lowest effective index that will be asked for
 * @param marginNm - by how much the line may be off its place
 * @returns pixels and reader, or null where the curve does not reach that far
 */
export function lineReader(
  curve: Curve,
  wavelengthNm: number,
  rays: BeamRays,
  leastIndex: number,
  marginNm: number,
): LineReader | null {
  const scan = curve.wavelengthNm;
  const reach = (sine: number): number => wavelengthNm / Math.sqrt(1 - sine / leastIndex ** 2);
  const from = reach(Math.min(0, ...rays.sineSquared));
  const to = reach(Math.max(0, ...rays.sineSquared));
  if (from < scan[0]! || to > scan[scan.length - 1]!) return null;
  const pixels = pixelsBetween(curve, from - marginNm - 1, to + marginNm + 1);
  return { pixels, read: rayReader(pixels.wavelengthNm) };
}
