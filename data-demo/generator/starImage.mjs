/**
 * A picture of a bright star through a filter: core and aureole, disks of light between parallel faces, spikes,
 * neighbours, a sloping sky, then shot and read noise, hot pixels, and a full well that overflows along the columns.
 *
 * @typedef {import('./random.mjs').RandomSource} RandomSource
 *
 * @typedef {object} StarCamera
 * @property {number} pixelSizeUm
 * @property {number} fNumber of the light at the sensor
 * @property {number} obstruction diameter of the hole in the beam over that of the beam
 * @property {number} electronsPerCount
 * @property {number} readNoiseCounts
 * @property {number} offsetCounts
 * @property {number} fullCounts where a pixel overflows
 *
 * @typedef {object} StarSpread how the light of a star is spread, in pixels
 * @property {number} fwhmPixels of the core
 * @property {number} beta power of the core's wings: (1 + r^2 / a^2)^-beta
 * @property {number} aureoleShare of the light
 * @property {number} aureolePower by which the aureole falls
 *
 * @typedef {object} DiskScene
 * @property {number} inner radius, pixels
 * @property {number} outer radius, pixels
 * @property {number} dx of its middle from the star, pixels
 * @property {number} dy
 * @property {number} counts in all
 *
 * @typedef {object} StarScene
 * @property {number} width
 * @property {number} height
 * @property {number} x of the star, pixels from 0
 * @property {number} y
 * @property {number} counts of the star in all
 * @property {number} skyCounts at the star
 * @property {readonly [number, number]} slope of the sky, counts a pixel
 * @property {readonly DiskScene[]} disks
 * @property {{ angleDeg: number, share: number }} spikes four of them, with their share of the light
 * @property {readonly { x: number, y: number, counts: number }[]} neighbours
 * @property {readonly { x: number, y: number, counts: number }[]} hotPixels
 */

/** Light of the aureole is counted as far as this, pixels. */
const AUREOLE_REACH = 3000;
/** The aureole is flat within so many widths of the core. */
const AUREOLE_FLAT = 6;
const SPIKE_SIGMA = 1.2;

/**
 * Takes a picture.
 *
 * @param {StarScene} scene
 * @param {StarSpread} spread
 * @param {StarCamera} camera
 * @param {RandomSource} random
 * @returns {Uint16Array} counts, row after row
 */
export function takeStar(scene, spread, camera, random) {
  const { width, height } = scene;
  const light = starLight(scene, spread);
  const { electronsPerCount, readNoiseCounts, offsetCounts, fullCounts } = camera;
  for (const { x, y, counts } of scene.hotPixels) {
    if (x < 0 || y < 0 || x >= width || y >= height) continue;
    light[y * width + x] = (light[y * width + x] ?? 0) + counts;
  }
  for (let i = 0; i < light.length; i++) {
    light[i] = random.poisson((light[i] ?? 0) * electronsPerCount) / electronsPerCount;
  }
  for (let x = 0; x < width; x++) overflow(light, x, width, height, fullCounts);
  return Uint16Array.from(light, (value) => {
    const counts = Math.round(offsetCounts + value + readNoiseCounts * random.normal());
    return Math.min(65535, Math.max(0, counts));
  });
}

/**
 * Light in each pixel, counts, without noise.
 *
 * @param {StarScene} scene
 * @param {StarSpread} spread
 * @returns {Float64Array}
 */
export function starLight(scene, spread) {
  const { width, height, disks, spikes, slope } = scene;
  const core = coreOf(spread);
  const aureole = aureoleOf(spread);
  const blur = spread.fwhmPixels / 2.3548;
  const share = 1 - spread.aureoleShare - spikes.share;
  const turn = (spikes.angleDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const light = new Float64Array(width * height);
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const dx = i - scene.x;
      const dy = j - scene.y;
      const square = dx * dx + dy * dy;
      let value = scene.skyCounts + slope[0] * dx + slope[1] * dy;
      value += scene.counts * (share * core(square) + spread.aureoleShare * aureole(square));
      value += scene.counts * spikes.share * spikeAt(dx * cos + dy * sin, dy * cos - dx * sin);
      for (const disk of disks) {
        const away = Math.hypot(dx - disk.dx, dy - disk.dy);
        const inside = risen((disk.outer - away) / blur) - risen((disk.inner - away) / blur);
        value += (disk.counts * inside) / (Math.PI * (disk.outer ** 2 - disk.inner ** 2));
      }
      light[j * width + i] = value;
    }
  }
  for (const star of scene.neighbours) {
    const reach = 60;
    for (let j = Math.max(0, Math.ceil(star.y - reach)); j <= Math.min(height - 1, star.y + reach); j++) {
      for (let i = Math.max(0, Math.ceil(star.x - reach)); i <= Math.min(width - 1, star.x + reach); i++) {
        const at = j * width + i;
        light[at] = (light[at] ?? 0) + star.counts * core((i - star.x) ** 2 + (j - star.y) ** 2);
      }
    }
  }
  return light;
}

/**
 * Source: Moffat, Astron. Astrophys. 3, 455 (1969): (1 + r^2 / a^2)^-beta, of which (beta - 1) / (pi a^2) makes a whole.
 *
 * @param {StarSpread} spread
 * @returns {(square: number) => number} share in a pixel by the squared distance
 */
function coreOf({ fwhmPixels, beta }) {
  const square = (fwhmPixels / 2) ** 2 / (2 ** (1 / beta) - 1);
  const top = (beta - 1) / (Math.PI * square);
  return (distance) => top * (1 + distance / square) ** -beta;
}

/**
 * @param {StarSpread} spread
 * @returns {(square: number) => number}
 */
function aureoleOf({ fwhmPixels, aureolePower }) {
  const square = (AUREOLE_FLAT * fwhmPixels) ** 2;
  const power = aureolePower / 2;
  // Integral of (1 + s / square)^-power over pi ds from 0 to the reach.
  const end = 1 + AUREOLE_REACH ** 2 / square;
  const whole = (Math.PI * square * (end ** (1 - power) - 1)) / (1 - power);
  return (distance) => (1 + distance / square) ** -power / whole;
}

/**
 * A cross of four arms, each falling as the 1.5th power: along 0 to 800 pixels they hold the whole.
 *
 * @param {number} u along one pair of arms
 * @param {number} v along the other
 * @returns {number} share in a pixel
 */
function spikeAt(u, v) {
  const arm = (/** @type {number} */ along, /** @type {number} */ across) =>
    Math.abs(across) > 6 * SPIKE_SIGMA
      ? 0
      : Math.exp(-0.5 * (across / SPIKE_SIGMA) ** 2) / (1 + Math.abs(along) / 4) ** 1.5;
  // Two lines, each twice the integral of (1 + r / 4)^-1.5, times the integral across.
  const whole = 4 * 8 * (1 - 1 / Math.sqrt(201)) * SPIKE_SIGMA * Math.sqrt(2 * Math.PI);
  return (arm(u, v) + arm(v, u)) / whole;
}

/** Cumulative normal distribution at steps of a thousandth, by summing its density. */
const cumulative = (() => {
  const table = new Float64Array(12001);
  let sum = 0;
  for (let k = 1; k < table.length; k++) {
    const middle = (k - 6000.5) / 1000;
    sum += Math.exp(-0.5 * middle * middle) / (1000 * Math.sqrt(2 * Math.PI));
    table[k] = sum;
  }
  return table;
})();

/**
 * @param {number} t
 * @returns {number} 0 far below 0, 1 far above
 */
function risen(t) {
  if (t <= -5.99) return 0;
  if (t >= 5.99) return 1;
  const at = (t + 6) * 1000;
  const k = Math.floor(at);
  const low = cumulative[k] ?? 0;
  return low + (at - k) * ((cumulative[k + 1] ?? 1) - low);
}

/**
 * What does not fit into the pixels of a column fills the next ones, above and below in turn.
 *
 * @param {Float64Array} light changed
 * @param {number} x
 * @param {number} width
 * @param {number} height
 * @param {number} full
 */
function overflow(light, x, width, height, full) {
  for (let y = 0; y < height; y++) {
    if ((light[y * width + x] ?? 0) <= full) continue;
    let excess = 0;
    let end = y;
    for (; end < height && (light[end * width + x] ?? 0) > full; end++) {
      excess += (light[end * width + x] ?? 0) - full;
      light[end * width + x] = full;
    }
    let [up, down] = [y - 1, end];
    for (let turn = 0; excess > 0 && (up >= 0 || down < height); turn++) {
      const goesUp = down >= height || (turn % 2 === 0 && up >= 0);
      const at = (goesUp ? up-- : down++) * width + x;
      const room = Math.max(0, full - (light[at] ?? 0));
      light[at] = (light[at] ?? 0) + Math.min(room, excess);
      excess -= room;
    }
    y = Math.max(y, down - 1);
  }
}
