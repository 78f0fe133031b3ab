import { readFileSync } from 'node:fs';
import { describeBandTruth } from './bandTruth.mjs';
import { seenThrough } from './image.mjs';

/**
 * @typedef {import('./image.mjs').Optics} Optics
 * @typedef {import('./types.mjs').FilterSpec} FilterSpec
 * @typedef {import('./types.mjs').FilterTruth} FilterTruth
 */

const emissionLines =
  /** @type {{ lines: { name: string, species: string, wavelengthNm: number, principal: boolean }[] }} */ (
    JSON.parse(readFileSync(new URL('../../shared/emission-lines.json', import.meta.url), 'utf8'))
  ).lines;

/**
 * What is true of a filter, and what a faultless bench of these optics would find of it.
 *
 * @param {Optics} optics
 * @param {FilterSpec} filter
 * @param {(wavelengthNm: number) => number} brightness
 * @param {(wavelengthNm: number) => number} transmittance
 * @returns {FilterTruth}
 */
export function filterTruth(optics, filter, brightness, transmittance) {
  const bands = [...filter.bands].sort((a, b) => a.centreNm - b.centreNm);
  const wanted = filter.lines.flatMap((name) =>
    emissionLines.filter((line) => line.name === name || (line.species === name && line.principal)),
  );
  return {
    id: filter.id,
    bands: bands.map((band, k) => {
      const pixel = optics.grating.pixelAt(band.centreNm);
      const spreadNm = optics.widthAt(pixel) * optics.grating.dispersionAt(pixel);
      const reach = 5.5 * band.fwhmNm + 3 * spreadNm;
      const previous = bands[k - 1]?.centreNm ?? Number.NEGATIVE_INFINITY;
      const next = bands[k + 1]?.centreNm ?? Number.POSITIVE_INFINITY;
      const fromNm = Math.max(band.centreNm - reach, (previous + band.centreNm) / 2);
      const toNm = Math.min(band.centreNm + reach, (next + band.centreNm) / 2);
      const seen = seenThrough(optics, brightness, transmittance, fromNm, toNm);
      const step = Math.min(band.fwhmNm, Math.hypot(spreadNm, band.fwhmNm / 2)) / 14;
      return {
        lines: wanted
          .filter((line) => line.wavelengthNm > fromNm && line.wavelengthNm < toNm)
          .map(({ name, wavelengthNm }) => ({
            name,
            wavelengthNm,
            transmittance: transmittance(wavelengthNm),
            seenTransmittance: seen(wavelengthNm),
          })),
        ideal: describeBandTruth(transmittance, fromNm, toNm, 0.005),
        asMeasured: describeBandTruth(seen, fromNm, toNm, step),
        lineSpreadNm: spreadNm,
      };
    }),
  };
}
