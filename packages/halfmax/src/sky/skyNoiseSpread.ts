import type { Curve } from '../metrics/index.js';
import { skyWeights } from './skyWeights.js';
import type { DetectedParts } from './uncertainSky.js';
import { weightBySky } from './weightBySky.js';

/**
 * How much of a signal to noise that the sky limits is open because the strengths of the sky's parts are.
 *
 * @param curve - of the filter, in the beam
 * @param detected - the sky as the camera detects it, with its trials
 * @param range - what the camera sees without a filter, nm
 * @returns relative standard uncertainty of the signal to noise behind the filter over that without it
 * @throws {RangeError} a sky that does not cover the range
 * Source: the noise goes with the root of the sky's electrons.
 */
export function skyNoiseSpread(
  curve: Curve,
  detected: DetectedParts,
  range: { readonly fromNm: number; readonly toNm: number },
): number {
  const ends = Float64Array.of(range.fromNm, range.toNm);
  const parts = detected.trials.map(({ sky, factors }) => ({
    factors,
    open: skyWeights(ends, sky, range).reduce((sum, weight) => sum + weight, 0),
    behind: Math.max(0, weightBySky(curve, sky, range).photons),
  }));
  const draws = Math.max(...parts.map(({ factors }) => factors.length));
  const at = (k: number, of: 'open' | 'behind'): number =>
    parts.reduce((sum, part) => sum + part.factors[k % part.factors.length]! * part[of], 0);
  const gains = Array.from({ length: draws }, (_, k) => Math.sqrt(at(k, 'open') / at(k, 'behind')));
  const mean = gains.reduce((sum, gain) => sum + gain, 0) / draws;
  if (!(mean > 0 && mean < Infinity)) return 0;
  return Math.sqrt(gains.reduce((sum, gain) => sum + (gain / mean - 1) ** 2, 0) / draws);
}
