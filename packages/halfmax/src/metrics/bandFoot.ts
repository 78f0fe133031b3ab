import { floorDeviations, type PixelFloors } from './pixelFloors.js';
import type { Curve } from './types.js';

/** Pixels that are averaged to see a foot in the noise. */
const footPixels = 7;
/** Standard uncertainties by which a foot must fall on to be still falling. */
const fallDeviations = 3;

/** A curve on the way out from a band. */
export interface WayOut {
  /** Pixel next to the band, and the last one of the way. */
  readonly start: number;
  readonly end: number;
  /** Mean over a pixel and the six before it on the way, fewer at the start; 0 off the way. */
  readonly level: Float64Array;
  readonly standardUncertainty: Float64Array;
}

/**
 * Averages a curve on the way out from a band.
 *
 * @param curve - the curve
 * @param trust - 0 leaves a pixel out
 * @param start - pixel next to the band
 * @param end - where the way ends, on either side
 * @returns the averages; infinite where no pixel of the window is trusted
 */
export function wayOut(curve: Curve, trust: Float64Array, start: number, end: number): WayOut {
  const { transmittance, standardUncertainty } = curve;
  const level = new Float64Array(transmittance.length);
  const uncertainty = new Float64Array(transmittance.length);
  const step = end >= start ? 1 : -1;
  for (let i = start; step * (end - i) >= 0; i += step) {
    let [sum, square, count] = [0, 0, 0];
    for (let k = 0; k < footPixels && step * (i - k * step - start) >= 0; k++) {
      const j = i - k * step;
      if (trust[j] === 0) continue;
      sum += transmittance[j]!;
      square += standardUncertainty[j]! ** 2;
      count++;
    }
    level[i] = count > 0 ? sum / count : Number.POSITIVE_INFINITY;
    uncertainty[i] = count > 0 ? Math.sqrt(square) / count : 0;
  }
  return { start, end, level, standardUncertainty: uncertainty };
}

/**
 * The height of a band's foot: the lowest level passed so far on the way out. Light that falls away from the band
 * does not stand above it; light that rises again does.
 *
 * @param way - the averaged curve
 * @returns level and its uncertainty for the pixels of the way, 0 elsewhere
 */
export function footOf(way: WayOut): Pick<WayOut, 'level' | 'standardUncertainty'> {
  const level = new Float64Array(way.level.length);
  const standardUncertainty = new Float64Array(way.level.length);
  const step = way.end >= way.start ? 1 : -1;
  let lowest = way.start;
  for (let i = way.start; step * (way.end - i) >= 0; i += step) {
    if (way.level[i]! < way.level[lowest]!) lowest = i;
    level[i] = Math.max(0, way.level[lowest]!);
    standardUncertainty[i] = way.standardUncertainty[lowest]!;
  }
  return { level, standardUncertainty };
}

/**
 * Where a band's foot ends: the first pixel on the way out at which the curve has come down to its limit or, beyond
 * noise, falls no further within the next seven pixels.
 *
 * @param way - the averaged curve
 * @param limits - smallest level that can be told from zero by a single pixel, and what of it all pixels share
 * @param strayLight - smallest level that can be told from zero at all
 * @returns the pixel, or null where the foot goes on to the end of the way
 */
export function footEnd(way: WayOut, limits: PixelFloors, strayLight: number): number | null {
  const step = way.end >= way.start ? 1 : -1;
  for (let i = way.start; step * (way.end - i) >= 0; i += step) {
    const passed = Math.min(footPixels, Math.abs(i - way.start) + 1);
    const own = limits.noise[i]! / Math.sqrt(passed);
    if (way.level[i]! <= Math.max(strayLight, Math.hypot(own, floorDeviations * limits.shared[i]!))) return i;
    const ahead = i + step * footPixels;
    if (step * (way.end - ahead) < 0) continue;
    const fall = way.level[i]! - way.level[ahead]!;
    const noise = Math.hypot(way.standardUncertainty[i]!, way.standardUncertainty[ahead]!);
    if (fall <= fallDeviations * noise) return i;
  }
  return null;
}
