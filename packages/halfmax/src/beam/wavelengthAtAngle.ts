import { requireIndex } from './requireBeam.js';

/**
 * Where a feature of a passband lies for parallel light at an angle.
 *
 * @param wavelengthNm - where it lies for light along the normal, above 0
 * @param angleDeg - angle to the normal in air, degrees, below 90
 * @param effectiveIndex - of the filter, 1 to 5
 * @returns wavelength in nm, never above the one at the normal
 * @throws {RangeError} a value out of range
 * Source: W. J. Smith, Modern Optical Engineering, 3rd edition, page 246; the form
 * lambda0 sqrt(1 - (sin a / n)^2), good for tilts below 30 degrees.
 * @example
 * wavelengthAtAngle(656.28, 5, 2).toFixed(4); // => '655.6566'
 */
export function wavelengthAtAngle(wavelengthNm: number, angleDeg: number, effectiveIndex: number): number {
  if (!(wavelengthNm > 0 && wavelengthNm < Infinity)) {
    throw new RangeError(`wavelengthAtAngle requires a wavelength above 0, got ${wavelengthNm}`);
  }
  if (!(Math.abs(angleDeg) < 90)) {
    throw new RangeError(`wavelengthAtAngle requires an angle below 90 degrees, got ${angleDeg}`);
  }
  requireIndex('wavelengthAtAngle', effectiveIndex);
  const sine = Math.sin((angleDeg * Math.PI) / 180) / effectiveIndex;
  return wavelengthNm * Math.sqrt(1 - sine * sine);
}
