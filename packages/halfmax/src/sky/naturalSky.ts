import { nightSkyTable } from '../reference/index.js';
import { linePhotons } from './photonRates.js';
import { planckPhotons } from './planckPhotons.js';
import { setBrightness } from './setBrightness.js';
import { skyGrid } from './skyGrid.js';
import type { Sky } from './types.js';

/** Magnitudes per square arcsecond of one tenth-magnitude star per square degree: 10 + 2.5 lg(3600^2). */
const S10_MAGNITUDE = 10 + 5 * Math.log10(3600);

/**
 * The natural parts of a moonless sky at their usual strengths.
 *
 * @returns airglow, zodiacal light and faint starlight, each on the same wavelengths
 * Source: the table night-sky (Leinert et al. 1998 and others named there).
 */
export function naturalSky(): { airglow: Sky; zodiacal: Sky; starlight: Sky } {
  const { airglow, zodiacal, starlight, sunTemperatureK } = nightSkyTable;
  const perNm = linePhotons({ value: airglow.continuumRayleighPerNm, unit: 'rayleigh' }, 550);
  const blackBody = (temperatureK: number, s10: number): Sky =>
    setBrightness(
      {
        wavelengthNm: skyGrid,
        photons: skyGrid.map((at) => planckPhotons(at, temperatureK)),
        lines: [],
      },
      S10_MAGNITUDE - 2.5 * Math.log10(s10),
    );
  return {
    airglow: {
      wavelengthNm: skyGrid,
      photons: new Float64Array(skyGrid.length).fill(perNm),
      lines: airglow.lines.map(({ wavelengthNm, rayleigh }) => ({
        wavelengthNm,
        photons: linePhotons({ value: rayleigh, unit: 'rayleigh' }, wavelengthNm),
      })),
    },
    zodiacal: blackBody(sunTemperatureK, zodiacal.s10),
    starlight: blackBody(starlight.temperatureK, starlight.s10),
  };
}
