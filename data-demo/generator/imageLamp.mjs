import { addLine } from './image.mjs';

/**
 * @typedef {import('./image.mjs').Optics} Optics
 * @typedef {import('./types.mjs').LineTruth} LineTruth
 */

/**
 * Images the lines of a lamp and its faint continuum.
 *
 * @param {Optics} optics
 * @param {import('./lamps.mjs').LampSpec} lamp
 * @param {import('./lamps.mjs').LampLine[]} lines
 * @param {(wavelengthNm: number) => number} throughput
 * @returns {{ image: Float64Array, rows: LineTruth[] }} counts per ms
 */
export function imageLamp(optics, lamp, lines, throughput) {
  const image = new Float64Array(optics.pixels);
  const shift = lamp.shiftPx ?? 0;
  /** Height of a line of unit light: its share in the pixel where it falls, about. @param {number} pixel */
  const height = (pixel) => 0.94 / Math.max(1, optics.widthAt(pixel));
  const placed = lines
    .map((line) => ({ ...line, pixel: optics.grating.pixelAt(line.wavelengthNm) + shift }))
    .filter((line) => line.pixel > -50 && line.pixel < optics.pixels + 50);
  const inside = placed.filter((line) => line.pixel > 0 && line.pixel < optics.pixels - 1);
  const highest = inside.reduce((most, line) => Math.max(most, line.strength * height(line.pixel)), 0);
  for (const { wavelengthNm, relative } of lamp.foreign ?? []) {
    const pixel = optics.grating.pixelAt(wavelengthNm) + shift;
    placed.push({
      species: 'foreign',
      wavelengthNm,
      kind: 'foreign',
      pixel,
      strength: (relative * highest) / height(pixel),
    });
  }
  for (const line of placed) addLine(image, optics, line.pixel, line.strength);
  const scale =
    lamp.peakCounts /
    (lamp.exposuresMs[0] ?? 1) /
    (image.reduce((most, value) => Math.max(most, value), 0) || 1);
  const continuum = ((lamp.continuum ?? 0.002) * lamp.peakCounts) / (lamp.exposuresMs[0] ?? 1);
  for (let i = 0; i < image.length; i++) {
    image[i] = (image[i] ?? 0) * scale + continuum * throughput(optics.grating.wavelengthAt(i));
  }
  const rows = placed
    .filter((line) => line.pixel > -0.5 && line.pixel < optics.pixels - 0.5)
    .map((line) => ({
      lamp: lamp.label,
      species: line.species,
      wavelengthNm: line.wavelengthNm,
      kind: line.kind,
      pixel: line.pixel,
      countsPerMs: line.strength * height(line.pixel) * scale,
    }))
    .sort((a, b) => a.wavelengthNm - b.wavelengthNm);
  return { image, rows };
}
