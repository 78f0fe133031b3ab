const ROOT_TWO_PI = 2.5066282746310002;

/**
 * Probability that a standard normal variable is below a value.
 *
 * @param z - any number, infinities included
 * @returns 0 to 1, right to some 1e-14 of itself in the lower tail too (down to z = -37)
 * @throws {RangeError} NaN
 *
 * Source: Abramowitz, Stegun (1964), 26.2.11 near the middle, the continued fraction 26.2.14 in the tails. Cost:
 * up to 160 terms, the most at z = -2.
 * @example
 * normalCdf(0); // => 0.5
 */
export function normalCdf(z: number): number {
  if (Number.isNaN(z)) throw new RangeError('normalCdf requires a number, got NaN');
  if (z > 0) return 1 - normalCdf(-z);
  if (z < -39) return 0;
  const square = z * z;
  const density = normalDensity(z);
  if (z > -2) {
    let term = z;
    let sum = z;
    for (let k = 3; Math.abs(term) > 1e-18 * Math.abs(sum); k += 2) {
      term *= square / k;
      sum += term;
    }
    return 0.5 + density * sum;
  }
  // From the far end inwards. What is left falls as exp(-2 |z| sqrt(2 levels)); far out a few levels are enough.
  let tail = 0;
  for (let k = 10 + Math.ceil(600 / square); k >= 1; k--) tail = k / (tail - z);
  return density / (tail - z);
}

/**
 * Density of the standard normal distribution.
 *
 * @param z - any number
 * @returns >= 0
 * @example
 * normalDensity(0).toFixed(6); // => '0.398942'
 */
export function normalDensity(z: number): number {
  // The square in two parts: rounding it whole would cost z^2 / 2 units in the last place.
  const coarse = Math.round(z * 16) / 16;
  const rest = (z - coarse) * (z + coarse);
  return (Math.exp(-coarse * coarse * 0.5) * Math.exp(-rest * 0.5)) / ROOT_TWO_PI;
}
