import type { LineBrightness } from './types.js';

/** Planck's constant times the speed of light, J nm: both exact in the SI of 2019. */
export const PHOTON_ENERGY_J_NM: number = 6.62607015e-34 * 299792458 * 1e9;
/** One square arcsecond in steradian. */
export const ARCSEC2_SR: number = (Math.PI / 648000) ** 2;

/**
 * Photons of a line of stated surface brightness.
 *
 * @param brightness - value of 0 or more, and its unit
 * @param wavelengthNm - of the line, air, nm
 * @returns photons per second, square metre and square arcsecond
 * @throws {RangeError} a negative brightness, an unknown unit or a wavelength not above 0
 * Source: the rayleigh is 10^10 / (4 pi) photons per second, square metre and steradian (Hunten, Roach, Chamberlain,
 * J. Atmos. Terr. Phys. 8, 345 (1956)).
 * @example
 * linePhotons({ value: 100, unit: 'rayleigh' }, 656.28).toFixed(4); // => '1.8704'
 */
export function linePhotons(brightness: LineBrightness, wavelengthNm: number): number {
  const { value, unit } = brightness;
  if (!(value >= 0 && value < Infinity)) {
    throw new RangeError(`linePhotons requires a brightness of 0 or more, got ${value}`);
  }
  if (!(wavelengthNm > 0 && wavelengthNm < Infinity)) {
    throw new RangeError(`linePhotons requires a wavelength above 0, got ${wavelengthNm}`);
  }
  if (unit === 'rayleigh') return value * (1e10 / (4 * Math.PI)) * ARCSEC2_SR;
  // 1 erg = 1e-7 J; 1 cm2 = 1e-4 m2
  if (unit === 'erg/s/cm2/arcsec2') return (value * 1e-3 * wavelengthNm) / PHOTON_ENERGY_J_NM;
  throw new RangeError(`linePhotons requires 'rayleigh' or 'erg/s/cm2/arcsec2', got ${String(unit)}`);
}
