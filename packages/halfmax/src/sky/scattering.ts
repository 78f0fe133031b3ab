import { atmosphereTable } from '../reference/index.js';

/** Dust and haze: optical depth at 550 nm, and the power of the wavelength by which it falls. */
export interface Aerosol {
  readonly opticalDepth550: number;
  readonly exponent: number;
}

/** Clear air of the table atmosphere. */
export const clearAir: Aerosol = atmosphereTable.aerosol;

/**
 * Optical depths of the air along the vertical.
 *
 * @param wavelengthNm - air, nm, 200 to 5000
 * @param aerosol - dust and haze
 * @returns depth by molecules at sea level, and by aerosol
 * @throws {RangeError} a wavelength out of range, a negative depth, an exponent not from 0 to 4
 * Source: Hansen, Travis, Space Sci. Rev. 16, 527 (1974), equation 2.30; Angstrom (1929).
 * @example
 * opticalDepth(550).rayleigh.toFixed(4); // => '0.0973'
 */
export function opticalDepth(
  wavelengthNm: number,
  aerosol: Aerosol = clearAir,
): { rayleigh: number; aerosol: number } {
  if (!(wavelengthNm >= 200 && wavelengthNm <= 5000)) {
    throw new RangeError(`opticalDepth requires a wavelength from 200 to 5000 nm, got ${wavelengthNm}`);
  }
  const { opticalDepth550, exponent } = aerosol;
  if (!(opticalDepth550 >= 0 && opticalDepth550 < Infinity)) {
    throw new RangeError(`opticalDepth requires an aerosol depth of 0 or more, got ${opticalDepth550}`);
  }
  if (!(exponent >= 0 && exponent <= 4))
    throw new RangeError(`opticalDepth requires an exponent from 0 to 4, got ${exponent}`);
  const { a, b, c } = atmosphereTable.rayleigh;
  const inverse = (1000 / wavelengthNm) ** 2;
  return {
    rayleigh: a * inverse * inverse * (1 + b * inverse + c * inverse * inverse),
    aerosol: opticalDepth550 * (wavelengthNm / 550) ** -exponent,
  };
}

/**
 * Share of a source's light that the air lets through.
 *
 * @param wavelengthNm - air, nm
 * @param airmass - 1 or more
 * @param aerosol - dust and haze
 * @returns fraction, 0 to 1; ozone and water are left out
 * @throws {RangeError} a value out of range
 * Source: the law of Bouguer and Lambert.
 */
export function airTransmission(wavelengthNm: number, airmass: number, aerosol: Aerosol = clearAir): number {
  if (!(airmass >= 1 && airmass <= 40))
    throw new RangeError(`airTransmission requires an airmass from 1 to 40, got ${airmass}`);
  const depth = opticalDepth(wavelengthNm, aerosol);
  return Math.exp(-(depth.rayleigh + depth.aerosol) * airmass);
}
