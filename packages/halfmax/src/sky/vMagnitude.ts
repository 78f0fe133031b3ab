import { photometryTable } from '../reference/index.js';
import { integrateSky } from './integrateSky.js';
import { ARCSEC2_SR, PHOTON_ENERGY_J_NM } from './photonRates.js';
import { tableReader } from './tableReader.js';
import type { Sky } from './types.js';

const vBand = tableReader(photometryTable.vBand);
const eye = tableReader(photometryTable.luminousEfficiency);

/** Area of the V band, nm: trapezoids on its table. */
function bandArea(): number {
  const { vBand: pairs } = photometryTable;
  let area = 0;
  for (let i = 1; i < pairs.length; i++)
    area += ((pairs[i]![0]! - pairs[i - 1]![0]!) * (pairs[i]![1]! + pairs[i - 1]![1]!)) / 2;
  return area;
}

/**
 * Brightness of a sky in V.
 *
 * @param sky - covers 470 to 700 nm
 * @returns V magnitudes per square arcsecond; Infinity for a dark one
 * @throws {RangeError} a sky not as described, or one that does not cover the band
 * Source: band and zero point of the table photometry (Bessell 1990; Bessell, Castelli, Plez 1998).
 */
export function vMagnitude(sky: Sky): number {
  const { vBand: pairs, vZeroPointWm2Nm } = photometryTable;
  const [from, to] = [pairs[0]![0]!, pairs[pairs.length - 1]![0]!];
  const grid = sky.wavelengthNm;
  if (!(grid[0]! <= from && grid[grid.length - 1]! >= to)) {
    throw new RangeError(
      `vMagnitude requires a sky that covers ${from} to ${to} nm, got ${grid[0]} to ${grid[grid.length - 1]} nm`,
    );
  }
  const power = integrateSky(sky, (at) => (vBand(at) * PHOTON_ENERGY_J_NM) / at);
  return -2.5 * Math.log10(power / (vZeroPointWm2Nm * bandArea()));
}

/**
 * Luminance of a sky from its spectrum.
 *
 * @param sky - covers the visible range
 * @returns candela per square metre
 * @throws {RangeError} a sky not as described
 * Source: 683 lm / W times V(lambda): CIE 018:2019.
 */
export function luminanceOfSky(sky: Sky): number {
  const lumens =
    photometryTable.lumensPerWatt * integrateSky(sky, (at) => (eye(at) * PHOTON_ENERGY_J_NM) / at);
  return lumens / ARCSEC2_SR;
}
