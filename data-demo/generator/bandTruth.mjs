/**
 * @typedef {object} BandTruth
 * @property {number} peakTransmittance
 * @property {number} peakNm
 * @property {number | null} centreNm midway between the outermost crossings of half the peak
 * @property {number | null} fwhmNm distance of those crossings
 * @property {number | null} width10Nm the same at a tenth of the peak
 * @property {number | null} width1Nm at a hundredth
 * @property {number} equivalentWidthNm area under the curve, within the window
 * @property {readonly [number, number]} windowNm where the band was looked for
 */

/**
 * Describes a band of a curve that is known as a function.
 *
 * @param {(wavelengthNm: number) => number} curve
 * @param {number} fromNm
 * @param {number} toNm
 * @param {number} stepNm of the first look; the crossings are then refined
 * @returns {BandTruth} null for a width whose crossings do not both lie in the window
 */
export function describeBandTruth(curve, fromNm, toNm, stepNm) {
  const count = Math.max(3, Math.ceil((toNm - fromNm) / stepNm) + 1);
  const step = (toNm - fromNm) / (count - 1);
  const values = new Float64Array(count);
  let top = 0;
  let area = 0;
  for (let i = 0; i < count; i++) {
    values[i] = curve(fromNm + i * step);
    if ((values[i] ?? 0) > (values[top] ?? 0)) top = i;
    area += (values[i] ?? 0) * step * (i === 0 || i === count - 1 ? 0.5 : 1);
  }
  const peakNm = maximumNear(curve, fromNm + (top - 1) * step, fromNm + (top + 1) * step);
  const peak = Math.max(curve(peakNm), values[top] ?? 0);

  /** @param {number} level */
  const outermost = (level) => {
    let first = 0;
    while (first < count && (values[first] ?? 0) < level) first++;
    let last = count - 1;
    while (last >= 0 && (values[last] ?? 0) < level) last--;
    if (first === 0 || last === count - 1 || first > last) return null;
    const low = crossing(curve, level, fromNm + (first - 1) * step, fromNm + first * step);
    const high = crossing(curve, level, fromNm + (last + 1) * step, fromNm + last * step);
    return { width: high - low, centre: (high + low) / 2 };
  };
  const half = outermost(peak / 2);
  return {
    peakTransmittance: peak,
    peakNm,
    centreNm: half?.centre ?? null,
    fwhmNm: half?.width ?? null,
    width10Nm: outermost(peak / 10)?.width ?? null,
    width1Nm: outermost(peak / 100)?.width ?? null,
    equivalentWidthNm: area,
    windowNm: [fromNm, toNm],
  };
}

/**
 * @param {(x: number) => number} curve
 * @param {number} level
 * @param {number} below a place where the curve is below the level
 * @param {number} above a place where it is not
 * @returns {number}
 */
function crossing(curve, level, below, above) {
  let low = below;
  let high = above;
  let atLow = curve(low) - level;
  let atHigh = curve(high) - level;
  let side = 0;
  for (let i = 0; i < 60 && Math.abs(high - low) > 1e-9; i++) {
    // False position; an end that stays twice is halved (the Illinois rule), so that both ends close in.
    const place = high - (atHigh * (high - low)) / (atHigh - atLow);
    const here = curve(place) - level;
    if (Math.abs(here) < 1e-10) return place;
    if (here < 0) {
      low = place;
      atLow = here;
      if (side < 0) atHigh /= 2;
      side = -1;
    } else {
      high = place;
      atHigh = here;
      if (side > 0) atLow /= 2;
      side = 1;
    }
  }
  return (low + high) / 2;
}

/**
 * @param {(x: number) => number} curve
 * @param {number} from
 * @param {number} to
 * @returns {number} place of the maximum, by golden section
 */
function maximumNear(curve, from, to) {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let low = from;
  let high = to;
  let a = high - ratio * (high - low);
  let b = low + ratio * (high - low);
  let atA = curve(a);
  let atB = curve(b);
  for (let i = 0; i < 14; i++) {
    if (atA > atB) {
      high = b;
      b = a;
      atB = atA;
      a = high - ratio * (high - low);
      atA = curve(a);
    } else {
      low = a;
      a = b;
      atA = atB;
      b = low + ratio * (high - low);
      atB = curve(b);
    }
  }
  return (low + high) / 2;
}
