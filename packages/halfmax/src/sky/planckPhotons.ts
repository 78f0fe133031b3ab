/** Second radiation constant, nm K: h c / k, exact in the SI of 2019. */
const SECOND_RADIATION_NM_K = 1.438776877e7;

/**
 * Photons of a black body on a scale of its own.
 *
 * @param wavelengthNm - above 0
 * @param temperatureK - above 0
 * @returns photons per nm, 1 at 550 nm
 * @throws {RangeError} a value not above 0
 * Source: Planck's law.
 */
export function planckPhotons(wavelengthNm: number, temperatureK: number): number {
  if (!(wavelengthNm > 0 && temperatureK > 0)) {
    throw new RangeError(`planckPhotons requires values above 0, got ${wavelengthNm} and ${temperatureK}`);
  }
  const photons = (at: number): number => at ** -4 / Math.expm1(SECOND_RADIATION_NM_K / (at * temperatureK));
  return photons(wavelengthNm) / photons(550);
}
