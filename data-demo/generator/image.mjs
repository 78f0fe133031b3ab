import { lightBefore } from './lineSpread.mjs';

/**
 * @typedef {import('./lineSpread.mjs').SpreadTable} SpreadTable
 * @typedef {import('./grating.mjs').Grating} Grating
 *
 * @typedef {object} Optics
 * @property {number} pixels
 * @property {Grating} grating
 * @property {SpreadTable} table cumulative line spread
 * @property {(pixel: number) => number} widthAt full width of the line spread in pixels
 */

/**
 * Adds the light of one wavelength to an image, integrated over each pixel.
 *
 * @param {Float64Array} image changed in place
 * @param {Optics} optics
 * @param {number} pixel where the centroid of the line falls
 * @param {number} light in all
 */
export function addLine(image, optics, pixel, light) {
  addSpread(image, optics.table, pixel, optics.widthAt(pixel), light);
}

/**
 * @param {Float64Array} image changed in place
 * @param {SpreadTable} table
 * @param {number} pixel
 * @param {number} width in pixels
 * @param {number} light
 */
function addSpread(image, table, pixel, width, light) {
  const reach = table.reach * width + 0.5;
  const first = Math.max(0, Math.ceil(pixel - reach));
  const last = Math.min(image.length - 1, Math.floor(pixel + reach));
  let before = lightBefore(table, (first - 0.5 - pixel) / width);
  for (let i = first; i <= last; i++) {
    const after = lightBefore(table, (i + 0.5 - pixel) / width);
    image[i] = (image[i] ?? 0) + light * (after - before);
    before = after;
  }
}

/**
 * A continuous spectrum cut into thin cells.
 *
 * @typedef {object} Continuum
 * @property {Float64Array} pixel middle of each cell
 * @property {Float64Array} wavelengthNm the same
 * @property {Float64Array} widthNm of each cell
 * @property {Float64Array} light in each cell
 * @property {Float64Array} spreadPx width of the line spread at each cell
 */

const cellsPerPixel = 8;

/**
 * Cuts the spectrum of a lamp into cells, a little beyond both ends of the array.
 *
 * @param {Optics} optics
 * @param {(wavelengthNm: number) => number} brightness light per nm
 * @returns {Continuum}
 */
export function cutContinuum(optics, brightness) {
  const widest = Math.max(optics.widthAt(0), optics.widthAt(optics.pixels - 1));
  const margin = Math.ceil(optics.table.reach * widest) + 1;
  const count = (optics.pixels + 2 * margin) * cellsPerPixel;
  const pixel = new Float64Array(count);
  const wavelengthNm = new Float64Array(count);
  const widthNm = new Float64Array(count);
  const light = new Float64Array(count);
  const spreadPx = new Float64Array(count);
  let edge = optics.grating.wavelengthAt(-margin - 0.5);
  for (let i = 0; i < count; i++) {
    const next = optics.grating.wavelengthAt((i + 1) / cellsPerPixel - margin - 0.5);
    pixel[i] = (i + 0.5) / cellsPerPixel - margin - 0.5;
    wavelengthNm[i] = (edge + next) / 2;
    widthNm[i] = Math.abs(next - edge);
    light[i] = brightness((edge + next) / 2) * Math.abs(next - edge);
    spreadPx[i] = optics.widthAt(pixel[i] ?? 0);
    edge = next;
  }
  return { pixel, wavelengthNm, widthNm, light, spreadPx };
}

/**
 * Images a continuous spectrum: each cell is spread as a line of its own.
 *
 * @param {Optics} optics
 * @param {Continuum} continuum
 * @param {{ transmittance?: (wavelengthNm: number) => number, samples?: (wavelengthNm: number) => number, shiftPx?: number }} [options]
 *   a filter in the beam, and how often to sample it in a cell (once by default)
 * @returns {Float64Array} light per pixel
 */
export function imageContinuum(optics, continuum, options = {}) {
  const { transmittance, samples } = options;
  const shift = options.shiftPx ?? 0;
  const image = new Float64Array(optics.pixels);
  for (let i = 0; i < continuum.pixel.length; i++) {
    const nm = continuum.wavelengthNm[i] ?? 0;
    let passed = 1;
    if (transmittance) {
      const count = samples?.(nm) ?? 1;
      const step = (continuum.widthNm[i] ?? 0) / count;
      let sum = 0;
      for (let k = 0; k < count; k++) sum += transmittance(nm + (k - (count - 1) / 2) * step);
      passed = sum / count;
    }
    const place = (continuum.pixel[i] ?? 0) + shift;
    addSpread(image, optics.table, place, continuum.spreadPx[i] ?? 1, passed * (continuum.light[i] ?? 0));
  }
  return image;
}

/**
 * The transmittance that a perfect bench of these optics would find: a filtered spectrum over an open one,
 * each spread by the optics and integrated over a pixel, as a function of where that pixel lies.
 *
 * @param {Optics} optics
 * @param {(wavelengthNm: number) => number} brightness of the broadband lamp, per nm
 * @param {(wavelengthNm: number) => number} transmittance
 * @param {number} fromNm
 * @param {number} toNm
 * @returns {(wavelengthNm: number) => number}
 */
export function seenThrough(optics, brightness, transmittance, fromNm, toNm) {
  const middle = optics.grating.pixelAt((fromNm + toNm) / 2);
  const margin = 1.2 * optics.table.reach * optics.widthAt(middle) + 1;
  // Cells of 1/200 of the line spread, never above 0.01 nm.
  const cellNm = Math.min(0.01, (optics.widthAt(middle) * optics.grating.dispersionAt(middle)) / 200);
  const ends = [optics.grating.pixelAt(fromNm), optics.grating.pixelAt(toNm)];
  const fromPixel = Math.min(...ends) - margin;
  const toPixel = Math.max(...ends) + margin;
  const cell = cellNm / optics.grating.dispersionAt((fromPixel + toPixel) / 2);
  const count = Math.ceil((toPixel - fromPixel) / cell);
  const inverseWidth = new Float64Array(count);
  const open = new Float64Array(count);
  const filtered = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const at = fromPixel + (i + 0.5) * cell;
    const nm = optics.grating.wavelengthAt(at);
    inverseWidth[i] = 1 / optics.widthAt(at);
    open[i] = brightness(nm) * optics.grating.dispersionAt(at);
    let passed = 0;
    for (let k = -2; k <= 2; k++) passed += transmittance(nm + (k / 5) * cellNm);
    filtered[i] = ((open[i] ?? 0) * passed) / 5;
  }
  return (wavelengthNm) => {
    const pixel = optics.grating.pixelAt(wavelengthNm);
    const reach = 1.05 * optics.table.reach * optics.widthAt(pixel) + 0.5;
    const first = Math.max(0, Math.floor((pixel - reach - fromPixel) / cell));
    const last = Math.min(count - 1, Math.ceil((pixel + reach - fromPixel) / cell));
    let above = 0;
    let below = 0;
    for (let i = first; i <= last; i++) {
      const scale = inverseWidth[i] ?? 0;
      const from = (pixel - fromPixel - (i + 0.5) * cell - 0.5) * scale;
      const share = lightBefore(optics.table, from + scale) - lightBefore(optics.table, from);
      above += share * (filtered[i] ?? 0);
      below += share * (open[i] ?? 0);
    }
    return above / below;
  };
}
