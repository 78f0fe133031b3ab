import type { Sky } from './types.js';
import { vMagnitude } from './vMagnitude.js';

/**
 * A sky of the same spectrum at another brightness.
 *
 * @param sky - covers the V band
 * @param brightness - V magnitudes per square arcsecond; Infinity for none
 * @returns the sky times one factor
 * @throws {RangeError} a brightness that is not a number, or a sky without light in V
 */
export function setBrightness(sky: Sky, brightness: number): Sky {
  if (!(brightness > Number.NEGATIVE_INFINITY))
    throw new RangeError(`setBrightness requires a brightness, got ${brightness}`);
  const now = vMagnitude(sky);
  if (now === Number.POSITIVE_INFINITY)
    throw new RangeError('setBrightness requires a sky with light in the V band, got none');
  const factor = brightness === Number.POSITIVE_INFINITY ? 0 : 10 ** (0.4 * (now - brightness));
  return {
    wavelengthNm: sky.wavelengthNm,
    photons: sky.photons.map((value) => value * factor),
    lines: sky.lines.map(({ wavelengthNm, photons }) => ({ wavelengthNm, photons: photons * factor })),
  };
}
