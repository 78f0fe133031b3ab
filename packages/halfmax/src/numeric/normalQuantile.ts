import { normalCdf, normalDensity } from './normalCdf.js';

/**
 * The value that a standard normal variable stays below with a given probability.
 *
 * @param p - 0 to 1; the ends give the infinities
 * @returns inverse of {@link normalCdf}
 * @throws {RangeError} p outside 0 to 1
 *
 * Source: start by Abramowitz, Stegun (1964), 26.2.23, then Halley steps on normalCdf. Cost: four calls of it.
 * @example
 * normalQuantile(0.975).toFixed(6); // => '1.959964'
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`normalQuantile requires p from 0 to 1, got ${p}`);
  if (p > 0.5) return -normalQuantile(1 - p);
  if (p === 0) return Number.NEGATIVE_INFINITY;
  if (p === 0.5) return 0;
  const t = Math.sqrt(-2 * Math.log(p));
  let z =
    (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))) - t;
  for (let pass = 0; pass < 4; pass++) {
    const excess = (normalCdf(z) - p) / normalDensity(z);
    z -= excess / (1 + 0.5 * z * excess);
  }
  return z;
}
