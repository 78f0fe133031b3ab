import { PHOTON_ENERGY_J_NM } from './photonRates.js';
import { requireSky } from './requireSky.js';
import type { Sky } from './types.js';
import { vMagnitude } from './vMagnitude.js';

/** A measured spectrum of the sky. */
export interface SkySpectrum {
  /** Air, nm, strictly increasing. */
  readonly wavelengthNm: ArrayLike<number>;
  readonly values: ArrayLike<number>;
  /** Absolute photons; or photons or energy per nm on a scale of its own, which needs a brightness. */
  readonly unit: 'photons/s/m2/arcsec2/nm' | 'relative photons' | 'relative energy';
}

/**
 * A sky from a measured spectrum.
 *
 * @param spectrum - wavelengths, values, unit
 * @param brightness - V magnitudes per square arcsecond that the sky is set to; left out, an absolute spectrum stays
 * @returns the sky
 * @throws {RangeError} values below 0, a relative spectrum without a brightness, or one that does not cover the V band
 */
export function skyFromSpectrum(spectrum: SkySpectrum, brightness?: number): Sky {
  const { unit } = spectrum;
  if (!['photons/s/m2/arcsec2/nm', 'relative photons', 'relative energy'].includes(unit)) {
    throw new RangeError(`skyFromSpectrum requires a known unit, got ${String(unit)}`);
  }
  const wavelengthNm = Float64Array.from(spectrum.wavelengthNm);
  const photons = Float64Array.from(spectrum.values, (value, i) =>
    unit === 'relative energy' ? (value * wavelengthNm[i]!) / PHOTON_ENERGY_J_NM : value,
  );
  const sky: Sky = { wavelengthNm, photons, lines: [] };
  requireSky('skyFromSpectrum', sky);
  if (brightness === undefined) {
    if (unit !== 'photons/s/m2/arcsec2/nm')
      throw new RangeError(`skyFromSpectrum requires a brightness for ${unit}, got none`);
    return sky;
  }
  if (!Number.isFinite(brightness))
    throw new RangeError(`skyFromSpectrum requires a finite brightness, got ${brightness}`);
  const now = vMagnitude(sky);
  if (now === Number.POSITIVE_INFINITY)
    throw new RangeError('skyFromSpectrum requires light in the V band, got none');
  const factor = 10 ** (0.4 * (now - brightness));
  return { wavelengthNm, photons: photons.map((value) => value * factor), lines: [] };
}
