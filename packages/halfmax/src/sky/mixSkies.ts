import { requireSky } from './requireSky.js';
import type { Sky } from './types.js';

/**
 * The sum of skies on one table of wavelengths.
 *
 * @param parts - skies with a factor of 0 or more each; at least one, all on the same wavelengths
 * @returns their sum
 * @throws {RangeError} no part, a factor below 0, or different wavelengths
 */
export function mixSkies(parts: readonly { readonly sky: Sky; readonly factor: number }[]): Sky {
  if (parts.length === 0) throw new RangeError('mixSkies requires at least 1 sky, got 0');
  const wavelengthNm = parts[0]!.sky.wavelengthNm;
  const photons = new Float64Array(wavelengthNm.length);
  const lines: { wavelengthNm: number; photons: number }[] = [];
  for (const { sky, factor } of parts) {
    requireSky('mixSkies', sky);
    if (!(factor >= 0 && factor < Infinity))
      throw new RangeError(`mixSkies requires factors of 0 or more, got ${factor}`);
    const same =
      sky.wavelengthNm.length === wavelengthNm.length &&
      sky.wavelengthNm.every((at, i) => at === wavelengthNm[i]);
    if (!same)
      throw new RangeError('mixSkies requires skies on one table of wavelengths, got different ones');
    for (let i = 0; i < photons.length; i++) photons[i]! += factor * sky.photons[i]!;
    if (factor > 0)
      for (const line of sky.lines)
        lines.push({ wavelengthNm: line.wavelengthNm, photons: factor * line.photons });
  }
  return { wavelengthNm, photons, lines };
}
