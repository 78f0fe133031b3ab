import { normalCdf, normalDensity } from '../numeric/index.js';

/**
 * The profile of a lamp line: a slit image (box) blurred by a Gaussian, with a small skewness. Heights are relative to
 * the symmetric profile's peak, z is the distance from the centroid in standard deviations.
 */
export interface LineShape {
  /** Share of the variance that the box holds: 0 is a Gaussian, 0.7 close to a triangle, towards 1 the bare box. */
  readonly boxShare: number;
  /** Third cumulant over the cube of the standard deviation. */
  readonly skewness: number;
  readonly value: (z: number) => number;
  /** Derivative of value. */
  readonly slope: (z: number) => number;
  /** Minus a sixth of the third derivative of the symmetric profile: what a skewness of 1 adds. */
  readonly skewTerm: (z: number) => number;
  /** Full width at half maximum in standard deviations: 2.3548 for the Gaussian, 3.4641 for the box. */
  readonly fwhm: number;
}

const REACH = 6;
const STEP = 0.005;
const LENGTH = 2 * Math.round(REACH / STEP) + 1;

/**
 * Makes a line shape; values are read from a fine table.
 *
 * The skewness enters as the first term of an Edgeworth series, which leaves centroid, area and variance alone.
 *
 * @param boxShare - 0 to 0.95
 * @param skewness - between -1 and 1
 * @returns the shape
 * @throws {RangeError} values outside these ranges
 * Source: closed form of box (x) Gaussian; Edgeworth series, Kendall, Stuart, The Advanced Theory of Statistics, vol. 1.
 */
export function lineShape(boxShare: number, skewness: number): LineShape {
  if (!(boxShare >= 0 && boxShare <= 0.95)) throw new RangeError(`lineShape requires a box share of 0 to 0.95, got ${boxShare}`);
  if (!(Math.abs(skewness) <= 1)) throw new RangeError(`lineShape requires a skewness of -1 to 1, got ${skewness}`);
  const symmetric = new Float64Array(LENGTH);
  const slopes = new Float64Array(LENGTH);
  const skews = new Float64Array(LENGTH);
  const half = Math.sqrt(3 * boxShare);
  const blur = Math.sqrt(1 - boxShare);
  const peak = boxShare < 1e-6 ? 1 : (2 * normalCdf(half / blur) - 1) / (2 * half);
  for (let n = 0; n < LENGTH; n++) {
    const z = n * STEP - REACH;
    if (boxShare < 1e-6) {
      const bell = Math.exp(-0.5 * z * z);
      symmetric[n] = bell;
      slopes[n] = -z * bell;
      skews[n] = ((z ** 3 - 3 * z) * bell) / 6;
    } else {
      const a = (half - z) / blur;
      const b = (-half - z) / blur;
      const scale = 2 * half * peak;
      symmetric[n] = (normalCdf(a) - normalCdf(b)) / scale;
      slopes[n] = (normalDensity(b) - normalDensity(a)) / (blur * scale);
      // The third derivative of the cumulative normal is (u^2 - 1) times the density, its sign turned by -z.
      skews[n] = ((a * a - 1) * normalDensity(a) - (b * b - 1) * normalDensity(b)) / (6 * blur ** 3 * scale);
    }
  }
  const value = lookUp(symmetric.map((v, n) => v + skewness * skews[n]!));
  const skewTerm = lookUp(skews);
  const tilt = differences(skews);
  const slope = lookUp(slopes.map((v, n) => v + skewness * tilt[n]!));
  return { boxShare, skewness, value, slope, skewTerm, fwhm: fullWidth(value) };
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
