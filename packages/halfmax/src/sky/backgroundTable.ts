import type { Curve } from '../metrics/index.js';
import { skyWeights } from './skyWeights.js';
import type { Sky } from './types.js';

/** Light of a sky behind a filter at a few effective indices. */
export interface BackgroundTable {
  /** An index each. */
  readonly sums: readonly number[];
  /** Change per nm of shift to the red. */
  readonly slopes: readonly number[];
}

/**
 * Works out the light behind a filter for a few indices, so that trials need only read it.
 *
 * @param seen - the same in the beam, an index each
 * @param sky - as detected
 * @param range - part of the spectrum that counts
 * @param stepNm - shift of the scale that the slope is taken over; 0 where there is none
 * @returns the table
 * @throws {RangeError} a sky that does not cover the range
 */
export function backgroundTable(
  seen: readonly Curve[],
  sky: Sky,
  range: { readonly fromNm: number; readonly toNm: number },
  stepNm: number,
): BackgroundTable {
  return {
    sums: seen.map((one) => behind(one, sky, range, 0)),
    slopes: seen.map((one) =>
      stepNm === 0 ? 0 : (behind(one, sky, range, stepNm) - behind(one, sky, range, -stepNm)) / (2 * stepNm),
    ),
  };
}

/**
 * What the noise of a curve's pixels makes of the light of a sky behind it.
 *
 * @param curve - as measured
 * @param sky - as detected
 * @param range - part of the spectrum that counts
 * @returns standard uncertainty, photons or electrons per second, square metre and square arcsecond
 * @throws {RangeError} a sky that does not cover the range
 */
export function backgroundNoise(
  curve: Curve,
  sky: Sky,
  range: { readonly fromNm: number; readonly toNm: number },
): number {
  const weights = skyWeights(curve.wavelengthNm, sky, range);
  let variance = 0;
  for (let i = 0; i < weights.length; i++) variance += (weights[i]! * curve.standardUncertainty[i]!) ** 2;
  return Math.sqrt(variance);
}

/**
 * Reads a table of backgrounds.
 *
 * @param table - the table
 * @param place - between the indices: 0 is the first, 0.5 half way to the second
 * @param shiftNm - of the scale
 * @returns photons or electrons per second, square metre and square arcsecond
 */
export function readBackground(table: BackgroundTable, place: number, shiftNm: number): number {
  const { sums, slopes } = table;
  const k = Math.max(0, Math.min(Math.floor(place), sums.length - 2));
  const part = place - k;
  const next = Math.min(k + 1, sums.length - 1);
  const sum = sums[k]! + part * (sums[next]! - sums[k]!);
  const slope = slopes[k]! + part * (slopes[next]! - slopes[k]!);
  return sum + shiftNm * slope;
}

/** Light of a sky behind a curve whose wavelengths are all shifted to the red. */
function behind(
  curve: Curve,
  sky: Sky,
  range: { readonly fromNm: number; readonly toNm: number },
  shiftNm: number,
): number {
  const scan = shiftNm === 0 ? curve.wavelengthNm : curve.wavelengthNm.map((at) => at + shiftNm);
  const weights = skyWeights(scan, sky, range);
  let sum = 0;
  for (let i = 0; i < weights.length; i++) sum += weights[i]! * curve.transmittance[i]!;
  return sum;
}
