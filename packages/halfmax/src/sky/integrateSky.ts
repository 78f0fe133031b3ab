import { requireSky } from './requireSky.js';
import type { Sky } from './types.js';

/**
 * Integral of a sky times a weight over its whole range, lines included.
 *
 * @param sky - the sky
 * @param weight - of a wavelength
 * @returns sum, by the trapezoidal rule on the sky's own points
 * @throws {RangeError} a sky not as described
 */
export function integrateSky(sky: Sky, weight: (wavelengthNm: number) => number): number {
  requireSky('integrateSky', sky);
  const { wavelengthNm, photons, lines } = sky;
  let sum = 0;
  let before = photons[0]! * weight(wavelengthNm[0]!);
  for (let i = 1; i < wavelengthNm.length; i++) {
    const here = photons[i]! * weight(wavelengthNm[i]!);
    sum += ((wavelengthNm[i]! - wavelengthNm[i - 1]!) / 2) * (before + here);
    before = here;
  }
  for (const line of lines) sum += line.photons * weight(line.wavelengthNm);
  return sum;
}
