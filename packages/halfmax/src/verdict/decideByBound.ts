import type { Decision } from './decisionRule.js';
import type { Measured } from './measured.js';
import type { ToleranceInterval } from './toleranceInterval.js';

/**
 * Verdict where the measurement gave only a bound, or nothing: decided if the bound alone decides it.
 *
 * @param tolerance - interval, open on a side that is left out
 * @param measured - lower bound, upper bound, or why there is no number
 * @returns met where every value beyond the bound is permitted, not met where none is, undecided otherwise
 * @throws {RangeError} a bound that is not a number
 *
 * Source: logic of intervals; no source needed.
 */
export function decideByBound(
  tolerance: ToleranceInterval,
  measured: Extract<
    Measured,
    { readonly absent: string } | { readonly atLeast: number } | { readonly atMost: number }
  >,
): Decision {
  if ('absent' in measured) return { verdict: 'undecided', reason: `no measured value: ${measured.absent}` };
  const { from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY } = tolerance;
  const least = 'atLeast' in measured ? measured.atLeast : Number.NEGATIVE_INFINITY;
  const most = 'atMost' in measured ? measured.atMost : Number.POSITIVE_INFINITY;
  if (Number.isNaN(least) || Number.isNaN(most)) {
    throw new RangeError('decideByBound requires a bound that is a number, got NaN');
  }
  if (least >= from && most <= to)
    return { verdict: 'met', reason: 'the measured bound lies within the limit' };
  if (least > to || most < from)
    return { verdict: 'not met', reason: 'the measured bound lies beyond the limit' };
  return { verdict: 'undecided', reason: 'the measured bound does not reach the limit' };
}
