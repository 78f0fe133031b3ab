/**
 * How one wavelength is spread over the detector.
 *
 * @typedef {'gaussian' | 'triangle' | 'slit' | 'skewed'} SpreadShape
 *
 * @typedef {object} LineSpreadSpec
 * @property {SpreadShape} shape `slit`: a box blurred by a Gaussian; `skewed`: a Gaussian with a faint displaced one
 * @property {'nm' | 'px'} unit of the three widths
 * @property {number} start full width at half maximum at the first pixel
 * @property {number} middle the same at the middle
 * @property {number} end the same at the last pixel; a parabola joins the three
 * @property {number} [blur] `slit`: width of the Gaussian as a share of the box, 0.5 by default
 * @property {number} [skew] `skewed`: weight of the displaced part, 0.15 by default
 *
 * @typedef {object} SpreadTable
 * @property {Float64Array} cumulative share of the light to the left of a place, in steps of `step`
 * @property {number} reach how far the table goes to either side, in full widths from the centroid
 */

const stepsPerWidth = 500;
const widestReach = 4;

/** @type {Map<string, SpreadTable>} */
const tables = new Map();

/**
 * The cumulative profile of a shape of full width 1, its centroid at 0.
 *
 * @param {Pick<LineSpreadSpec, 'shape' | 'blur' | 'skew'>} spec
 * @returns {SpreadTable}
 */
export function spreadTable(spec) {
  const key = `${spec.shape}/${spec.blur ?? 0.5}/${spec.skew ?? 0.15}`;
  const known = tables.get(key);
  if (known) return known;
  const raw = rawProfile(spec);
  const { width, centroid } = measureProfile(raw);
  const count = 2 * widestReach * stepsPerWidth + 1;
  const whole = new Float64Array(count);
  let before = 0;
  for (let i = 1; i < count; i++) {
    const middle = raw(((i - 0.5) / stepsPerWidth - widestReach) * width + centroid);
    const here = raw((i / stepsPerWidth - widestReach) * width + centroid);
    whole[i] = (whole[i - 1] ?? 0) + before + 4 * middle + here;
    before = here;
  }
  // The ends that hold less than a billionth of the light are cut off: they only cost time.
  const total = whole[count - 1] ?? 1;
  let cut = 0;
  while ((whole[cut + 1] ?? 0) < 1e-9 * total && (whole[count - 2 - cut] ?? 0) > (1 - 1e-9) * total) cut++;
  const cumulative = whole.subarray(cut, count - cut).map((value) => value / total);
  const table = { cumulative, reach: widestReach - cut / stepsPerWidth };
  tables.set(key, table);
  return table;
}

/**
 * Share of the light of a line that lies to the left of a place.
 *
 * @param {SpreadTable} table
 * @param {number} place in full widths from the centroid
 * @returns {number} 0 to 1
 */
export function lightBefore(table, place) {
  const at = (place + table.reach) * stepsPerWidth;
  if (at <= 0) return 0;
  const cumulative = table.cumulative;
  const i = Math.floor(at);
  if (i >= cumulative.length - 1) return 1;
  const part = at - i;
  const low = /** @type {number} */ (cumulative[i]);
  const rise = /** @type {number} */ (cumulative[i + 1]) - low;
  if (i === 0 || i >= cumulative.length - 2) return low + part * rise;
  // The curvature of both ends of the step, so that the profile itself has no stairs.
  const before = low - /** @type {number} */ (cumulative[i - 1]);
  const after = /** @type {number} */ (cumulative[i + 2]) - low - rise;
  return low + part * (rise + (part - 1) * 0.25 * (after - before));
}

/**
 * Full width at half maximum in pixels for a line that falls on a given place.
 *
 * @param {LineSpreadSpec} spec
 * @param {number} pixels of the array
 * @param {(pixel: number) => number} dispersionAt nm per pixel
 * @returns {(pixel: number) => number}
 */
export function spreadWidth(spec, pixels, dispersionAt) {
  const half = (pixels - 1) / 2;
  const slope = (spec.end - spec.start) / 2;
  const bend = (spec.end + spec.start) / 2 - spec.middle;
  return (pixel) => {
    const inside = Math.min(pixels + 60, Math.max(-60, pixel));
    const t = (inside - half) / half;
    const width = spec.middle + slope * t + bend * t * t;
    return spec.unit === 'px' ? width : width / dispersionAt(inside);
  };
}

/**
 * @param {Pick<LineSpreadSpec, 'shape' | 'blur' | 'skew'>} spec
 * @returns {(u: number) => number} an unnormalised profile, of about unit width
 */
function rawProfile(spec) {
  /** @param {number} u */
  const bell = (u) => Math.exp(-4 * Math.LN2 * u * u);
  switch (spec.shape) {
    case 'gaussian':
      return bell;
    case 'triangle':
      return (u) => Math.max(0, 1 - Math.abs(u));
    case 'slit': {
      const blur = spec.blur ?? 0.5;
      const parts = 32;
      return (u) => {
        let sum = 0;
        for (let k = 0; k < parts; k++) sum += bell((u - (k + 0.5) / parts + 0.5) / blur);
        return sum / parts;
      };
    }
    case 'skewed': {
      const skew = spec.skew ?? 0.15;
      return (u) => (1 - skew) * bell(u) + skew * bell((u - 0.45) / 1.3);
    }
  }
}

/**
 * @param {(u: number) => number} profile
 * @returns {{ width: number, centroid: number }}
 */
function measureProfile(profile) {
  const step = 1 / 500;
  let peak = 0;
  let sum = 0;
  let moment = 0;
  for (let u = -4; u <= 4; u += step) {
    const value = profile(u);
    if (value > peak) peak = value;
    sum += value;
    moment += value * u;
  }
  /** @param {number} inside @param {number} outside */
  const halfPoint = (inside, outside) => {
    let low = inside;
    let high = outside;
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (profile(middle) > peak / 2) low = middle;
      else high = middle;
    }
    return low;
  };
  return { width: halfPoint(0, 4) - halfPoint(0, -4), centroid: moment / sum };
}
