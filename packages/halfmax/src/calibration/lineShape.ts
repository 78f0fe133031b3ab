import { normalCdf, normalDensity } from '../numeric/index.js';

/**
 * The profile of a lamp line: two boxes (the images of slit and source) blurred by a Gaussian, with a small skewness.
 * Heights are relative to the symmetric profile's peak, z is the distance from the centroid in standard deviations.
 */
export interface LineShape {
  /** Share of the variance that the boxes hold: 0 is a Gaussian, towards 1 the boxes alone. */
  readonly boxShare: number;
  /** Width of the narrower box over the wider: near 0 a single box, 1 a triangle. */
  readonly boxRatio: number;
  /** Third cumulant over the cube of the standard deviation. */
  readonly skewness: number;
  readonly value: (z: number) => number;
  /** Derivative of value. */
  readonly slope: (z: number) => number;
  /** Minus a sixth of the third derivative of the symmetric profile: what a skewness of 1 adds. */
  readonly skewTerm: (z: number) => number;
  /** Full width at half maximum in standard deviations: 2.3548 for the Gaussian, 3.4641 for the box. */
  readonly fwhm: number;
  /** What the measured lines show beyond the closed form; see {@link RESIDUAL_STEP}. */
  readonly residual: Float64Array;
}

/** Spacing, in standard deviations, of the residual table, which runs from -RESIDUAL_REACH to RESIDUAL_REACH. */
export const RESIDUAL_STEP: number = 0.2;
export const RESIDUAL_REACH: number = 3.6;
export const RESIDUAL_LENGTH: number = 2 * Math.round(RESIDUAL_REACH / RESIDUAL_STEP) + 1;

/** The profile is taken as zero beyond this many standard deviations. */
const REACH = 5;
const STEP = 0.01;
const LENGTH = 2 * Math.round(REACH / STEP) + 1;

/**
 * Makes a line shape; values are read from a fine table.
 *
 * The skewness enters as the first term of an Edgeworth series, which leaves centroid, area and variance alone. A
 * residual, if any, is added and the whole is moved so that its centroid lies at 0.
 *
 * @param boxShare - 0 to 0.98
 * @param boxRatio - 0.1 to 1
 * @param skewness - between -1 and 1
 * @param residual - what lines show beyond this, relative to the height, RESIDUAL_LENGTH values; none when left out
 * @returns the shape
 * @throws {RangeError} values outside these ranges
 * Source: closed form of box (x) box (x) Gaussian; Edgeworth series, Kendall, Stuart, The Advanced Theory of
 * Statistics, vol. 1.
 */
export function lineShape(
  boxShare: number,
  boxRatio: number,
  skewness: number,
  residual: Float64Array = new Float64Array(RESIDUAL_LENGTH),
): LineShape {
  if (!(boxShare >= 0 && boxShare <= 0.98))
    throw new RangeError(`lineShape requires a box share of 0 to 0.98, got ${boxShare}`);
  if (!(boxRatio >= 0.1 && boxRatio <= 1))
    throw new RangeError(`lineShape requires a box ratio of 0.1 to 1, got ${boxRatio}`);
  if (!(Math.abs(skewness) <= 1))
    throw new RangeError(`lineShape requires a skewness of -1 to 1, got ${skewness}`);
  const symmetric = new Float64Array(LENGTH);
  const slopes = new Float64Array(LENGTH);
  const skews = new Float64Array(LENGTH);
  if (boxShare < 1e-6) {
    for (let n = 0; n < LENGTH; n++) {
      const z = n * STEP - REACH;
      const bell = Math.exp(-0.5 * z * z);
      symmetric[n] = bell;
      slopes[n] = -z * bell;
      skews[n] = ((z ** 3 - 3 * z) * bell) / 6;
    }
  } else {
    const wide = Math.sqrt((12 * boxShare) / (1 + boxRatio ** 2));
    const narrow = boxRatio * wide;
    const blur = Math.sqrt(1 - boxShare);
    const corners = [
      { at: (wide + narrow) / 2, sign: 1 },
      { at: (wide - narrow) / 2, sign: -1 },
      { at: -(wide - narrow) / 2, sign: -1 },
      { at: -(wide + narrow) / 2, sign: 1 },
    ];
    let peak = 0;
    for (const { at, sign } of corners) peak += sign * twiceSummed(at / blur) * blur;
    for (const { at, sign } of corners) {
      for (let n = 0; n < LENGTH; n++) {
        const u = (n * STEP - REACH + at) / blur;
        const density = normalDensity(u);
        const summed = normalCdf(u);
        symmetric[n]! += (sign * (u * summed + density) * blur) / peak;
        slopes[n]! += (sign * summed) / peak;
        skews[n]! += (sign * u * density) / (6 * blur ** 2 * peak);
      }
    }
  }
  const skewTerm = lookUp(skews);
  if (residual.every((r) => r === 0)) {
    const value = lookUp(symmetric.map((v, n) => v + skewness * skews[n]!));
    const tilt = differences(skews);
    const slope = lookUp(slopes.map((v, n) => v + skewness * tilt[n]!));
    return { boxShare, boxRatio, skewness, value, slope, skewTerm, fwhm: fullWidth(value), residual };
  }
  const whole = symmetric.map((v, n) => v + skewness * skews[n]! + residualAt(residual, n * STEP - REACH));
  const at = lookUp(whole);
  const centre = centroid(whole);
  const centred = whole.map((_, n) => at(n * STEP - REACH + centre));
  const value = lookUp(centred);
  return {
    boxShare,
    boxRatio,
    skewness,
    value,
    slope: lookUp(differences(centred)),
    skewTerm,
    fwhm: fullWidth(value),
    residual,
  };
}

/** The residual between its entries, by cubics through four of them; 0 beyond its ends. */
function residualAt(residual: Float64Array, z: number): number {
  const at = (z + RESIDUAL_REACH) / RESIDUAL_STEP;
  const n = Math.floor(at);
  if (n < -1 || n > RESIDUAL_LENGTH - 1) return 0;
  const f = at - n;
  const p = (k: number): number => residual[n + k] ?? 0;
  const a = p(1) - p(-1);
  const b = 2 * p(-1) - 5 * p(0) + 4 * p(1) - p(2);
  const c = 3 * (p(0) - p(1)) + p(2) - p(-1);
  return p(0) + 0.5 * f * (a + f * (b + f * c));
}

function centroid(table: Float64Array): number {
  let sum = 0;
  let moment = 0;
  for (let n = 0; n < LENGTH; n++) {
    sum += table[n]!;
    moment += table[n]! * (n * STEP - REACH);
  }
  return moment / sum;
}

/** The integral of the cumulative normal distribution from minus infinity. */
function twiceSummed(u: number): number {
  return u * normalCdf(u) + normalDensity(u);
}

function lookUp(table: Float64Array): (z: number) => number {
  return (z) => {
    const at = (z + REACH) / STEP;
    if (!(at >= 0 && at < LENGTH - 1)) return 0;
    const n = Math.floor(at);
    return table[n]! + (at - n) * (table[n + 1]! - table[n]!);
  };
}

function differences(table: Float64Array): Float64Array {
  return table.map((_, n) => {
    const before = table[Math.max(0, n - 1)]!;
    const after = table[Math.min(LENGTH - 1, n + 1)]!;
    return (after - before) / (2 * STEP);
  });
}

function fullWidth(value: (z: number) => number): number {
  let peak = 0;
  for (let z = -1.5; z <= 1.5; z += STEP) peak = Math.max(peak, value(z));
  const crossing = (direction: number): number => {
    let z = 0;
    while (value(direction * z) > peak / 2) z += STEP;
    const above = value(direction * (z - STEP));
    const below = value(direction * z);
    return z - STEP + (STEP * (above - peak / 2)) / (above - below);
  };
  return crossing(-1) + crossing(1);
}
