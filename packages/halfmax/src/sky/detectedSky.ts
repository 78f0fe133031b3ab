import { requireSky } from './requireSky.js';
import { responseReader } from './responseReader.js';
import type { Response, Sky } from './types.js';

/**
 * What a camera detects of a sky: photons times a response, so that every later sum is of electrons.
 *
 * @param sky - the sky
 * @param response - quantum efficiency, a channel's response, the optics: a fraction
 * @returns the sky in electrons, where the table of the response reaches
 * @throws {RangeError} a sky or response not as described, or a table that leaves less than two points of the sky
 */
export function detectedSky(sky: Sky, response: Response): Sky {
  requireSky('detectedSky', sky);
  const { read, fromNm, toNm } = responseReader('detectedSky', response);
  const kept = sky.wavelengthNm.filter((at) => at >= fromNm && at <= toNm);
  if (kept.length < 2) {
    throw new RangeError(`detectedSky requires a response that covers the sky, got ${fromNm} to ${toNm} nm`);
  }
  const offset = sky.wavelengthNm.indexOf(kept[0]!);
  return {
    wavelengthNm: kept,
    photons: kept.map((at, i) => sky.photons[offset + i]! * read(at)),
    lines: sky.lines
      .filter(({ wavelengthNm }) => wavelengthNm >= fromNm && wavelengthNm <= toNm)
      .map(({ wavelengthNm, photons }) => ({ wavelengthNm, photons: photons * read(wavelengthNm) })),
  };
}
