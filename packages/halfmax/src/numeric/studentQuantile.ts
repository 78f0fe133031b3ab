import { normalQuantile } from './normalQuantile.js';
import { logBetaHalf, studentDensity, studentHalfInside, studentLowerTail } from './studentCdf.js';

/** From here on the expansion of the quantile in 1/dof is exact to rounding. */
const LARGE = 1e5;

/**
 * The value that a Student variable stays below with a given probability: the factor of an interval from few values.
 *
 * @param p - 0 to 1; the ends give the infinities
 * @param dof - degrees of freedom, > 0, need not be whole; Infinity gives the normal distribution
 * @returns inverse of {@link studentCdf}
 * @throws {RangeError} p outside 0 to 1, or dof not above 0
 *
 * Source: Abramowitz, Stegun (1964), 26.7.5 for many degrees of freedom and as a start, then Newton steps. Cost:
 * some ten calls of studentCdf.
 * @example
 * studentQuantile(0.975, 9).toFixed(6); // => '2.262157'
 */
export function studentQuantile(p: number, dof: number): number {
  if (!(dof > 0)) throw new RangeError(`studentQuantile requires dof > 0, got ${dof}`);
  if (!(p >= 0 && p <= 1)) throw new RangeError(`studentQuantile requires p from 0 to 1, got ${p}`);
  if (p > 0.5) return -studentQuantile(1 - p, dof);
  if (p === 0) return Number.NEGATIVE_INFINITY;
  if (p === 0.5) return 0;
  const expanded = expansion(normalQuantile(p), dof);
  if (dof >= LARGE) return expanded;
  // Newton on the logarithms of both sides far out, where the tail is a power; on the probability near the middle.
  let t = p < 0.2 && dof < 5 ? tailStart(p, dof) : expanded;
  let low = Number.NEGATIVE_INFINITY;
  let high = 0;
  for (let pass = 0; pass < 100; pass++) {
    const inTail = p < 0.2;
    const probability = inTail ? studentLowerTail(t, dof) : 0;
    const excess = inTail ? probability - p : 0.5 - p - studentHalfInside(t, dof);
    if (excess > 0) high = t;
    else low = t;
    let next = inTail
      ? t * Math.exp((-Math.log(probability / p) * probability) / (t * studentDensity(t, dof)))
      : t - excess / studentDensity(t, dof);
    // Outside of what is known: go half way. Not for the last digits, where rounding moves the limits too.
    if (!(next > low && next < high) && !(Math.abs(next - t) <= 1e-10 * Math.abs(t))) {
      next = low === Number.NEGATIVE_INFINITY ? 2 * t : high === 0 ? t / 2 : (low + high) / 2;
    }
    const moved = Math.abs(next - t);
    t = next;
    if (moved <= 4e-16 * Math.abs(t) || excess === 0) break;
  }
  return t;
}

/** Leading term of the lower tail solved for t. */
function tailStart(p: number, dof: number): number {
  return -Math.exp(0.5 * Math.log(dof) - (Math.log(p * dof) + logBetaHalf(dof)) / dof);
}

function expansion(z: number, dof: number): number {
  const s = z * z;
  const first = (z * (s + 1)) / 4;
  const second = (z * (3 + s * (16 + 5 * s))) / 96;
  const third = (z * (-15 + s * (17 + s * (19 + 3 * s)))) / 384;
  const fourth = (z * (-945 + s * (-1920 + s * (1482 + s * (776 + 79 * s))))) / 92160;
  return z + (first + (second + (third + fourth / dof) / dof) / dof) / dof;
}
