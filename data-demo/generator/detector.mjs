/**
 * @typedef {import('./random.mjs').RandomSource} RandomSource
 *
 * @typedef {object} DetectorSpec
 * @property {number} offsetCounts of the converter, with no light and no time
 * @property {number} fixedPatternCounts scatter of the offset from pixel to pixel
 * @property {number} darkCountsPerMs
 * @property {readonly { pixel: number, countsPerMs: number }[]} hotPixels
 * @property {number} readNoiseCounts
 * @property {number} electronsPerCount
 * @property {readonly number[] | null} linearity true counts = measured x (p0 + p1 measured + ...)
 * @property {boolean} declareLinearity true where the session file tells the polynomial
 * @property {number} clipCounts no count is ever above this
 * @property {number} saturationCounts what the session file says
 * @property {number} pixelResponse scatter of the sensitivity from pixel to pixel, relative
 * @property {boolean} zeroClipped true where counts below zero are stored as zero
 *
 * @typedef {object} Detector
 * @property {Float64Array} offset counts
 * @property {Float64Array} darkRate counts per ms
 * @property {Float64Array} response relative
 */

/**
 * Draws the detector's own pattern.
 *
 * @param {DetectorSpec} spec
 * @param {number} pixels
 * @param {RandomSource} random
 * @returns {Detector}
 */
export function createDetector(spec, pixels, random) {
  const offset = new Float64Array(pixels);
  const darkRate = new Float64Array(pixels);
  const response = new Float64Array(pixels);
  for (let i = 0; i < pixels; i++) {
    offset[i] = spec.offsetCounts + spec.fixedPatternCounts * random.normal();
    darkRate[i] = spec.darkCountsPerMs * Math.max(0, 1 + 0.2 * random.normal());
    response[i] = 1 + spec.pixelResponse * random.normal();
  }
  for (const hot of spec.hotPixels) darkRate[hot.pixel] = (darkRate[hot.pixel] ?? 0) + hot.countsPerMs;
  return { offset, darkRate, response };
}

/**
 * Takes one frame: photon noise, dark, converter, clipping, whole counts.
 *
 * @param {DetectorSpec} spec
 * @param {Detector} detector
 * @param {Float64Array | null} light counts per ms before the detector's response; null in the dark
 * @param {number} level factor on the light
 * @param {number} exposureMs
 * @param {RandomSource} random
 * @returns {Float64Array} counts
 */
export function exposeFrame(spec, detector, light, level, exposureMs, random) {
  const { offset, darkRate, response } = detector;
  const { electronsPerCount, linearity, readNoiseCounts, clipCounts } = spec;
  const least = spec.zeroClipped ? 0 : Number.NEGATIVE_INFINITY;
  const electronsPerRate = exposureMs * electronsPerCount;
  return offset.map((zero, i) => {
    const shining = light === null ? 0 : level * (light[i] ?? 0) * (response[i] ?? 1);
    const electrons = random.poisson(((darkRate[i] ?? 0) + shining) * electronsPerRate);
    const read =
      measuredCounts(linearity, zero + electrons / electronsPerCount) + readNoiseCounts * random.normal();
    return Math.round(Math.min(clipCounts, Math.max(least, read)));
  });
}

/**
 * What the converter says for true counts: the inverse of true = measured x p(measured).
 *
 * @param {readonly number[] | null} linearity
 * @param {number} trueCounts
 * @returns {number}
 */
export function measuredCounts(linearity, trueCounts) {
  if (linearity === null) return trueCounts;
  let measured = trueCounts;
  for (let round = 0; round < 30; round++) {
    let value = 0;
    let slope = 0;
    for (let k = linearity.length - 1; k >= 0; k--) {
      slope = slope * measured + value;
      value = value * measured + (linearity[k] ?? 0);
    }
    const step = (measured * value - trueCounts) / (value + measured * slope);
    measured -= step;
    if (Math.abs(step) < 1e-7) break;
  }
  return measured;
}

/**
 * A particle's track through a few pixels.
 *
 * @param {Float64Array} counts changed in place
 * @param {number} pixel
 * @param {number} clipCounts
 * @param {import('./random.mjs').RandomSource} random
 */
export function strike(counts, pixel, clipCounts, random) {
  for (let k = 0; k < 3; k++) {
    counts[pixel + k] = Math.min(
      clipCounts,
      (counts[pixel + k] ?? 0) + Math.round(random.between(3000, 15000) / (1 + k)),
    );
  }
}
