import { beamRays } from './beamRays.js';
import { requireIndex } from './requireBeam.js';
import type { Beam } from './types.js';

/**
 * Mean shift of a passband's place over the rays of a beam.
 *
 * @param wavelengthNm - place for light along the normal, above 0
 * @param beam - the beam
 * @param effectiveIndex - of the filter, 1 to 5
 * @returns shift in nm, 0 or below
 * @throws {RangeError} a value out of range
 * Source: mean of lambda0 (sqrt(1 - (sin a / n)^2) - 1) over the pupil; for small angles -lambda0 / (16 n^2 N^2).
 * @example
 * coneShift(656.28, { fNumber: 5 }, 2).toFixed(6); // => '-0.410346'
 */
export function coneShift(wavelengthNm: number, beam: Beam, effectiveIndex: number): number {
  if (!(wavelengthNm > 0 && wavelengthNm < Infinity)) {
    throw new RangeError(`coneShift requires a wavelength above 0, got ${wavelengthNm}`);
  }
  requireIndex('coneShift', effectiveIndex);
  const { sineSquared, weight } = beamRays(beam);
  let mean = 0;
  for (let i = 0; i < weight.length; i++) {
    const x = sineSquared[i]! / effectiveIndex ** 2;
    // sqrt(1 - x) - 1 without loss of digits for small x
    mean += weight[i]! * (-x / (1 + Math.sqrt(1 - x)));
  }
  return wavelengthNm * mean;
}
