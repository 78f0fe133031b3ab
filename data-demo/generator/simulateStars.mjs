import { encodeFitsImage } from './encodeFits.mjs';
import { createRandom } from './random.mjs';
import { takeStar } from './starImage.mjs';

/**
 * @typedef {object} StarImageSpec
 * @property {string} filter
 * @property {number} counts of the star
 * @property {number} skyCounts
 * @property {readonly [number, number]} slope
 * @property {readonly [number, number]} place of the star, pixels from 0
 * @property {readonly { faces: string, airSpacingMm: number, share: number, displacement?: readonly [number, number] }[]} halos
 * @property {'short exposure' | 'magnitude'} light how the session tells the light of the star
 * @property {{ magnitude: number, uncertainty: number }} [magnitude]
 * @property {Record<string, unknown>} [extra] further fields of the session's entry
 *
 * @typedef {object} StarsSpec
 * @property {string} star
 * @property {import('./starImage.mjs').StarCamera} camera
 * @property {number} focalLengthMm
 * @property {number} saturationCounts what the session says
 * @property {import('./starImage.mjs').StarSpread} spread
 * @property {{ angleDeg: number, share: number }} spikes
 * @property {number} exposureS
 * @property {number} shortExposureS
 * @property {number} size of a picture, pixels a side
 * @property {number} shortSize
 * @property {{ count: number, countsPerS: readonly [number, number] }} hotPixels
 * @property {{ count: number, faintest: number, brightest: number }} neighbours shares of the star's light, evenly spread in their logarithm
 * @property {readonly Record<string, unknown>[]} layers
 * @property {readonly StarImageSpec[]} images
 *
 * @typedef {object} StarTruth
 * @property {string} filter
 * @property {string} file
 * @property {number} x of the star, pixels from 1 as in FITS
 * @property {number} y
 * @property {number} counts of the star
 * @property {{ faces: string, airSpacingMm: number, outerPixels: number, innerPixels: number, share: number,
 *   dx: number, dy: number }[]} halos
 */

/**
 * Takes the pictures of a star through the filters, each with random numbers of its own.
 *
 * @param {StarsSpec} spec
 * @param {number} seed
 * @returns {{ files: { name: string, content: Uint8Array }[], entries: Record<string, unknown>[], truth: StarTruth[] }}
 */
export function simulateStars(spec, seed) {
  const { camera, spread, spikes } = spec;
  const field = fieldOf(spec, createRandom(seed, 'star field'));
  const hotPixels = hotPixelsOf(spec, createRandom(seed, 'star camera'));
  /** @type {{ name: string, content: Uint8Array }[]} */
  const files = [];
  /** @type {StarTruth[]} */
  const truth = [];
  const entries = spec.images.map((image) => {
    const random = createRandom(seed, `star through ${image.filter}`);
    const [x, y] = image.place;
    const halos = image.halos.map(({ faces, airSpacingMm, share, displacement: [dx, dy] = [0, 0] }) => {
      const outer = (1000 * airSpacingMm) / camera.fNumber / camera.pixelSizeUm;
      return { faces, airSpacingMm, outer, inner: camera.obstruction * outer, share, dx, dy };
    });
    const scene = {
      width: spec.size,
      height: spec.size,
      x,
      y,
      counts: image.counts,
      skyCounts: image.skyCounts,
      slope: image.slope,
      disks: halos.map((halo) => ({ ...halo, counts: halo.share * image.counts })),
      spikes,
      hotPixels,
      // The field moves with the star, and all of it shines through the filter as the star does.
      neighbours: field.map((one) => ({
        x: one.x + x,
        y: one.y + y,
        counts: one.share * image.counts,
      })),
    };
    const name = `stars/${image.filter}.fits`;
    files.push({
      name,
      content: written(takeStar(scene, spread, camera, random), spec.size, spec.exposureS),
    });
    truth.push({
      filter: image.filter,
      file: name,
      x: x + 1,
      y: y + 1,
      counts: image.counts,
      halos: halos.map(({ outer, inner, ...halo }) => ({ ...halo, outerPixels: outer, innerPixels: inner })),
    });
    const entry = {
      filter: image.filter,
      file: name,
      star: spec.star,
      pixelSizeUm: camera.pixelSizeUm,
      fNumber: camera.fNumber,
      saturationCounts: spec.saturationCounts,
      focalLengthMm: spec.focalLengthMm,
      obstruction: camera.obstruction,
      layers: spec.layers,
      ...image.extra,
    };
    if (image.light === 'magnitude') {
      const { magnitude, uncertainty } = image.magnitude ?? { magnitude: 0, uncertainty: 0 };
      const zeroPoint = magnitude + 2.5 * Math.log10(image.counts) + uncertainty * random.normal();
      const stated = Math.round(zeroPoint * 1000) / 1000;
      return { ...entry, magnitude, zeroPoint: stated, magnitudeUncertainty: uncertainty };
    }
    const short = shortScene(scene, spec);
    const shortFile = `stars/${image.filter}-short.fits`;
    const counts = takeStar(short, spread, camera, random);
    files.push({ name: shortFile, content: written(counts, spec.shortSize, spec.shortExposureS) });
    return { ...entry, shortFile };
  });
  return { files, entries, truth };
}

/**
 * Neighbours about the star, which is at the origin; none hides in its core.
 *
 * @param {StarsSpec} spec
 * @param {import('./random.mjs').RandomSource} random
 * @returns {{ x: number, y: number, share: number }[]}
 */
function fieldOf({ neighbours: { count, faintest, brightest }, size }, random) {
  /** @type {{ x: number, y: number, share: number }[]} */
  const field = [];
  while (field.length < count) {
    const [x, y] = [random.between(-0.52, 0.52) * size, random.between(-0.52, 0.52) * size];
    if (x * x + y * y < 900) continue;
    field.push({ x, y, share: faintest * (brightest / faintest) ** random.uniform() });
  }
  return field;
}

/**
 * Pixels of the sensor whose dark current is high.
 *
 * @param {StarsSpec} spec
 * @param {import('./random.mjs').RandomSource} random
 * @returns {{ x: number, y: number, counts: number }[]} counts in the long exposure
 */
function hotPixelsOf({ hotPixels: { count, countsPerS }, size, exposureS }, random) {
  return Array.from({ length: count }, () => ({
    x: random.index(size),
    y: random.index(size),
    counts: exposureS * random.between(countsPerS[0], countsPerS[1]),
  }));
}

/**
 * The middle of the same field in a short exposure.
 *
 * @param {import('./starImage.mjs').StarScene} scene
 * @param {StarsSpec} spec
 * @returns {import('./starImage.mjs').StarScene}
 */
function shortScene(scene, { shortSize, exposureS, shortExposureS }) {
  const part = shortExposureS / exposureS;
  const shift = { x: Math.round(scene.x - shortSize / 2), y: Math.round(scene.y - shortSize / 2) };
  const less = (/** @type {{ counts: number }} */ one) => ({ counts: one.counts * part });
  const moved = (/** @type {{ x: number, y: number, counts: number }} */ one) => ({
    x: one.x - shift.x,
    y: one.y - shift.y,
    ...less(one),
  });
  return {
    ...scene,
    width: shortSize,
    height: shortSize,
    x: scene.x - shift.x,
    y: scene.y - shift.y,
    counts: scene.counts * part,
    skyCounts: scene.skyCounts * part,
    slope: [scene.slope[0] * part, scene.slope[1] * part],
    disks: scene.disks.map((disk) => ({ ...disk, ...less(disk) })),
    neighbours: scene.neighbours.map(moved),
    hotPixels: scene.hotPixels.map(moved),
  };
}

/**
 * @param {Uint16Array} counts
 * @param {number} width
 * @param {number} exposureS
 * @returns {Uint8Array}
 */
function written(counts, width, exposureS) {
  return encodeFitsImage(counts, width, [
    ['EXPTIME', exposureS, 'exposure in seconds'],
    ['BUNIT', 'count', 'raw counts'],
  ]);
}
