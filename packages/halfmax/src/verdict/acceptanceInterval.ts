import type { ToleranceInterval } from './toleranceInterval.js';

/**
 * A tolerance interval narrowed by a guard band on each closed side (widened where the width is below 0).
 *
 * @param tolerance - interval, open on a side that is left out
 * @param width - of the guard band, in the unit of the tolerance
 * @returns measured values to be accepted, or why there is none
 * @throws {RangeError} width not finite
 *
 * Source: JCGM 106:2012, 8.3.
 * @example
 * acceptanceInterval({ from: 2, to: 4 }, 0.5); // => { from: 2.5, to: 3.5 }
 */
export function acceptanceInterval(
  tolerance: ToleranceInterval,
  width: number,
): ToleranceInterval | { readonly absent: string } {
  if (!Number.isFinite(width))
    throw new RangeError(`acceptanceInterval requires a finite width, got ${width}`);
  const { from, to } = tolerance;
  const low = from === undefined ? undefined : from + width;
  const high = to === undefined ? undefined : to - width;
  if (low !== undefined && high !== undefined && low > high) {
    return { absent: 'the guard bands take up the whole tolerance interval' };
  }
  return { ...(low === undefined ? {} : { from: low }), ...(high === undefined ? {} : { to: high }) };
}
