import type { Curve } from '../metrics/index.js';
import { skyWeights } from './skyWeights.js';
import type { Sky } from './types.js';
import { weightBySky } from './weightBySky.js';

/** What a filter leaves of a sky. */
export interface SkyShare {
  /** Light behind the filter over all light of the range. */
  readonly transmittance: number;
  /** Width of a window of transmittance 1 that passes as much of an even sky of the same total. */
  readonly effectiveWidthNm: number;
  /** Of the transmittance, from the noise of the curve's pixels. */
  readonly standardUncertainty: number;
}

/**
 * Transmittance weighted by the sky, and the width of the background that it stands for: quick enough for a slider.
 *
 * @param curve - in the beam; counts as 0 where it was not measured
 * @param sky - the sky, or what a camera detects of it
 * @param range - what counts as all light, nm
 * @returns share and width; the share is 0 of a sky without light
 * @throws {RangeError} a range that is none, or that the sky does not cover
 * Source: the ratio of the two integrals; for a flat sky the width is the area of the curve.
 * @example
 * const curve = { wavelengthNm: Float64Array.of(500, 510), transmittance: Float64Array.of(1, 1), standardUncertainty: new Float64Array(2) };
 * const flat = { wavelengthNm: Float64Array.of(400, 700), photons: Float64Array.of(2, 2), lines: [] };
 * Math.round(skyShare(curve, flat, { fromNm: 400, toNm: 700 }).effectiveWidthNm * 1e6) / 1e6; // => 10
 */
export function skyShare(
  curve: Curve,
  sky: Sky,
  range: { readonly fromNm: number; readonly toNm: number },
): SkyShare {
  const { fromNm, toNm } = range;
  if (!(fromNm > 0 && fromNm < toNm && toNm < Infinity))
    throw new RangeError(`skyShare requires a range, got ${fromNm} to ${toNm} nm`);
  const open = skyWeights(Float64Array.of(fromNm, toNm), sky, range).reduce((sum, part) => sum + part, 0);
  const { photons, standardUncertainty } = weightBySky(curve, sky, range);
  const per = open > 0 ? 1 / open : 0;
  return {
    transmittance: photons * per,
    effectiveWidthNm: photons * per * (toNm - fromNm),
    standardUncertainty: standardUncertainty * per,
  };
}
