import type { Sky } from './types.js';

/**
 * Refuses a sky that is not as described.
 *
 * @param caller - name of the function that was called
 * @param sky - the sky
 * @throws {RangeError} lengths, order, negative or missing numbers
 */
export function requireSky(caller: string, sky: Sky): void {
  const { wavelengthNm, photons, lines } = sky;
  const n = wavelengthNm.length;
  if (photons.length !== n) {
    throw new RangeError(`${caller} requires a sky of arrays of one length, got ${n} and ${photons.length}`);
  }
  if (n < 2) throw new RangeError(`${caller} requires a sky of at least 2 points, got ${n}`);
  for (let i = 0; i < n; i++) {
    const at = wavelengthNm[i]!;
    if (!(at > 0 && at < Infinity) || (i > 0 && !(at > wavelengthNm[i - 1]!))) {
      throw new RangeError(
        `${caller} requires a sky of strictly increasing wavelengths, got ${at} at index ${i}`,
      );
    }
    if (!(photons[i]! >= 0 && photons[i]! < Infinity)) {
      throw new RangeError(`${caller} requires a sky of 0 or more, got ${photons[i]} at index ${i}`);
    }
  }
  for (const line of lines) {
    if (!(line.wavelengthNm > 0 && line.photons >= 0 && line.photons < Infinity)) {
      throw new RangeError(
        `${caller} requires sky lines of 0 or more, got ${line.photons} at ${line.wavelengthNm} nm`,
      );
    }
  }
}
