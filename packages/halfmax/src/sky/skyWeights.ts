import { requireScan } from '../beam/index.js';
import { requireSky } from './requireSky.js';
import type { Sky } from './types.js';

/** Part of the spectrum that counts. */
export interface SkyRange {
  /** @default the shortest wavelength of the curve */
  readonly fromNm?: number;
  /** @default the longest wavelength of the curve */
  readonly toNm?: number;
}

/**
 * Weights of a curve's pixels that turn transmittances into the photons of a sky behind the filter: worked out once,
 * they serve every curve on the same pixels.
 *
 * @param wavelengthNm - pixels of the curve, strictly increasing, 2 or more
 * @param sky - the sky, or what a camera detects of it
 * @param range - part of the spectrum that counts
 * @returns photons per second, square metre and square arcsecond for each unit of transmittance
 * @throws {RangeError} pixels or sky not as described, or a sky that does not cover the range
 * Source: the exact integral of the product of two curves that are straight between their points; a line falls on its
 * two neighbours. Cost: O(pixels + points of the sky).
 */
export function skyWeights(wavelengthNm: Float64Array, sky: Sky, range: SkyRange = {}): Float64Array {
  const n = wavelengthNm.length;
  requireScan('skyWeights', wavelengthNm);
  requireSky('skyWeights', sky);
  const grid = sky.wavelengthNm;
  const light = sky.photons;
  const from = Math.max(range.fromNm ?? wavelengthNm[0]!, wavelengthNm[0]!);
  const to = Math.min(range.toNm ?? wavelengthNm[n - 1]!, wavelengthNm[n - 1]!);
  if (!(from < to))
    throw new RangeError(`skyWeights requires a range inside the curve, got ${from} to ${to}`);
  if (grid[0]! > from || grid[grid.length - 1]! < to) {
    const has = `${grid[0]!.toFixed(1)} to ${grid[grid.length - 1]!.toFixed(1)}`;
    throw new RangeError(
      `skyWeights requires a sky that covers ${from.toFixed(1)} to ${to.toFixed(1)} nm, got ${has} nm`,
    );
  }
  const weights = new Float64Array(n);
  let i = 0;
  while (wavelengthNm[i + 1]! <= from) i++;
  let j = 0;
  while (grid[j + 1]! <= from) j++;
  let x = from;
  let share = (x - wavelengthNm[i]!) / (wavelengthNm[i + 1]! - wavelengthNm[i]!);
  let s = light[j]! + ((x - grid[j]!) / (grid[j + 1]! - grid[j]!)) * (light[j + 1]! - light[j]!);
  while (x < to) {
    const next = Math.min(wavelengthNm[i + 1]!, grid[j + 1]!, to);
    const width = next - x;
    const nextShare = (next - wavelengthNm[i]!) / (wavelengthNm[i + 1]! - wavelengthNm[i]!);
    const nextS = light[j]! + ((next - grid[j]!) / (grid[j + 1]! - grid[j]!)) * (light[j + 1]! - light[j]!);
    // Simpson's rule, exact for the product of two straight lines.
    const right = (width / 6) * (share * s + (share + nextShare) * (s + nextS) + nextShare * nextS);
    weights[i + 1]! += right;
    weights[i]! += (width / 2) * (s + nextS) - right;
    x = next;
    share = nextShare;
    s = nextS;
    if (x === wavelengthNm[i + 1] && i < n - 2) {
      i++;
      share = 0;
    }
    if (x === grid[j + 1] && j < grid.length - 2) j++;
  }
  for (const line of sky.lines) {
    if (line.wavelengthNm < from || line.wavelengthNm > to) continue;
    let low = 0;
    let high = n - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (wavelengthNm[middle]! <= line.wavelengthNm) low = middle;
      else high = middle;
    }
    const part = (line.wavelengthNm - wavelengthNm[low]!) / (wavelengthNm[high]! - wavelengthNm[low]!);
    weights[low]! += line.photons * (1 - part);
    weights[high]! += line.photons * part;
  }
  return weights;
}
