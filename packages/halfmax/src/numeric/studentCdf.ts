import { incompleteBeta } from './incompleteBeta.js';
import { normalCdf } from './normalCdf.js';

/**
 * Probability that a Student variable is below a value.
 *
 * @param t - any number, infinities included
 * @param dof - degrees of freedom, > 0, need not be whole; Infinity gives the normal distribution
 * @returns 0 to 1, right to some 1e-12 of itself in the lower tail too
 * @throws {RangeError} dof not above 0, or NaN
 *
 * Source: Abramowitz, Stegun (1964), 26.7.1 and 26.5.8. Cost: O(sqrt(dof)) terms.
 * @example
 * studentCdf(1, 1).toFixed(9); // => '0.750000000'
 */
export function studentCdf(t: number, dof: number): number {
  if (!(dof > 0) || Number.isNaN(t))
    throw new RangeError(`studentCdf requires dof > 0 and a number, got ${dof}, ${t}`);
  if (t > 0) return 1 - studentCdf(-t, dof);
  // So near to the normal distribution the fraction would gather more rounding than this expansion leaves out.
  if (dof > 1e4 && t * t < 3e-4 * dof) return normalCdf(normalEquivalent(t, dof));
  if (dof === Number.POSITIVE_INFINITY) return normalCdf(t);
  const central = 0.5 - studentHalfInside(t, dof);
  return central > 0.2 ? central : studentLowerTail(t, dof);
}

/** The normal value of the same probability, for many degrees of freedom: 26.7.5 turned round. */
function normalEquivalent(t: number, dof: number): number {
  const s = t * t;
  const first = (s + 1) / 4;
  const second = (3 + s * (8 + 13 * s)) / 96;
  const third = (-15 + s * (1 + s * (19 + 35 * s))) / 384;
  return t * (1 - (first - (second - third / dof) / dof) / dof);
}

/** Density of the Student distribution. */
export function studentDensity(t: number, dof: number): number {
  return Math.exp(-logBetaHalf(dof) - 0.5 * Math.log(dof) - 0.5 * (dof + 1) * Math.log1p((t * t) / dof));
}

/** Probability below t < 0. */
export function studentLowerTail(t: number, dof: number): number {
  const square = t * t;
  return 0.5 * incompleteBeta(dof / (dof + square), square / (dof + square), dof / 2, 0.5, logBetaHalf(dof));
}

/** Probability between t < 0 and 0. */
export function studentHalfInside(t: number, dof: number): number {
  const square = t * t;
  return 0.5 * incompleteBeta(square / (dof + square), dof / (dof + square), 0.5, dof / 2, logBetaHalf(dof));
}

/** Logarithm of the beta function of dof/2 and 1/2. */
export function logBetaHalf(dof: number): number {
  // Gamma(a) / Gamma(a + 1/2) by its recurrence up to a >= 20, then the expansion in 1/a (Abramowitz, Stegun 6.1.47).
  let a = dof / 2;
  let factor = Math.sqrt(Math.PI);
  while (a < 20) {
    factor *= (a + 0.5) / a;
    a += 1;
  }
  const inverse = 1 / a;
  const series =
    inverse *
    (1 / 8 +
      inverse * inverse * (-1 / 192 + inverse * inverse * (1 / 640 + inverse * inverse * (-17 / 14336))));
  return Math.log(factor) - 0.5 * Math.log(a) + series;
}
