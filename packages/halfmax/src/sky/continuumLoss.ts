import type { Curve } from '../metrics/index.js';
import { detectedSky } from './detectedSky.js';
import { integrateSky } from './integrateSky.js';
import { planckPhotons } from './planckPhotons.js';
import { skyWeights } from './skyWeights.js';
import type { Response, Sky } from './types.js';
import { weightBySky } from './weightBySky.js';

/** What is left of a star, a galaxy or a reflection nebula behind a filter. */
export interface ContinuumLoss {
  /** Share of the detected light that is left. */
  readonly share: number;
  readonly standardUncertainty: number;
  /** The same as magnitudes lost; Infinity where nothing is left. */
  readonly magnitudes: number;
  /** Signal to noise over that without a filter, limited by the sky: below 1 a filter harms. */
  readonly signalToNoise: number;
}

/**
 * What a filter does to a target without lines.
 *
 * @param curve - of the filter, in the beam
 * @param temperatureK - colour of the target as a black body: 5772 for a star like the sun
 * @param detected - the sky as the camera detects it
 * @param response - quantum efficiency of the camera
 * @param range - what the camera sees without a filter, nm
 * @returns share left, magnitudes lost, signal to noise against none; the curve counts as 0 where it was not measured
 * @throws {RangeError} a value out of range, or a sky or response that does not cover the range
 * Source: photons through the filter over photons without; noise goes with the root of the sky's electrons.
 */
export function continuumLoss(
  curve: Curve,
  temperatureK: number,
  detected: Sky,
  response: Response,
  range: { readonly fromNm: number; readonly toNm: number },
): ContinuumLoss {
  const { fromNm, toNm } = range;
  if (!(fromNm > 0 && fromNm < toNm))
    throw new RangeError(`continuumLoss requires a range, got ${fromNm} to ${toNm} nm`);
  const wavelengthNm = Float64Array.from({ length: 401 }, (_, i) => fromNm + ((toNm - fromNm) * i) / 400);
  const light = wavelengthNm.map((at) => planckPhotons(at, temperatureK));
  const target = detectedSky({ wavelengthNm, photons: light, lines: [] }, response);
  const open = integrateSky(target, () => 1);
  const through = weightBySky(curve, target, range);
  const ends = Float64Array.of(fromNm, toNm);
  const sky = skyWeights(ends, detected, range).reduce((sum, weight) => sum + weight, 0);
  const behind = weightBySky(curve, detected, range).photons;
  const share = Math.max(0, through.photons) / open;
  return {
    share,
    standardUncertainty: through.standardUncertainty / open,
    magnitudes: share > 0 ? -2.5 * Math.log10(share) : Number.POSITIVE_INFINITY,
    signalToNoise: behind > 0 && sky > 0 ? share / Math.sqrt(behind / sky) : 0,
  };
}
