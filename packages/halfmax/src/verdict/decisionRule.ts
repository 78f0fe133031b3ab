import { acceptanceInterval } from './acceptanceInterval.js';
import { guardBand } from './guardBand.js';
import type { ToleranceInterval } from './toleranceInterval.js';

/** How a measurement is turned into a verdict. */
export type DecisionRule =
  /**
   * Met when the probability of conforming is at least `probability`, not met when the true value lies beyond one limit
   * with at least that probability.
   */
  | { readonly kind: 'probability'; readonly probability: number }
  /** Met when the measured value lies within the tolerance, not met otherwise: the risk is shared. */
  | { readonly kind: 'simple' }
  /** Met inside the tolerance by a guard band of `multiple` x `coverageFactor` x u, not met outside it by as much. */
  | { readonly kind: 'guarded'; readonly multiple: number; readonly coverageFactor: number };

/** The four words of a verdict. */
export type Verdict = 'met' | 'not met' | 'undecided' | 'no tolerance stated';

/** A verdict with its reason in one sentence. */
export interface Decision {
  readonly verdict: Verdict;
  readonly reason: string;
}

/** The rule used when none is named; `judge` says why. */
export const defaultRule: DecisionRule = { kind: 'probability', probability: 0.95 };

/**
 * Applies a decision rule.
 *
 * @param rule - probability (above 0.5 and below 1), simple, or guarded (multiple 0 or more)
 * @param tolerance - interval, open on a side that is left out
 * @param measured - value and standard uncertainty, unit of the tolerance
 * @param within - probability of conforming, 0 to 1
 * @param beyond - probability of lying below the lower limit or above the upper, whichever is larger
 * @returns met, not met or undecided
 * @throws {RangeError} a rule out of range
 *
 * Source: JCGM 106:2012, 8.2 (simple acceptance), 8.3.2 and 8.3.3 (guarded acceptance and guarded rejection).
 */
export function applyRule(
  rule: DecisionRule,
  tolerance: ToleranceInterval,
  measured: { readonly value: number; readonly standardUncertainty: number },
  within: number,
  beyond: number,
): Decision {
  requireRule(rule);
  const { value, standardUncertainty } = measured;
  switch (rule.kind) {
    case 'probability':
      return byProbability(rule.probability, within, beyond);
    case 'simple':
      return contains(tolerance, value)
        ? { verdict: 'met', reason: 'the measured value lies within the tolerance' }
        : { verdict: 'not met', reason: 'the measured value lies outside the tolerance' };
    case 'guarded': {
      const width = guardBand(standardUncertainty, rule);
      if (contains(acceptanceInterval(tolerance, width), value)) {
        return {
          verdict: 'met',
          reason: 'the measured value lies within the tolerance by the guard band or more',
        };
      }
      if (contains(acceptanceInterval(tolerance, -width), value)) {
        return {
          verdict: 'undecided',
          reason: 'the measured value lies closer to a limit than the guard band',
        };
      }
      return {
        verdict: 'not met',
        reason: 'the measured value lies outside the tolerance by more than the guard band',
      };
    }
  }
}

/** Throws unless the numbers of a rule are in range. */
export function requireRule(rule: DecisionRule): void {
  if (rule.kind === 'probability' && !(rule.probability > 0.5 && rule.probability < 1)) {
    throw new RangeError(`decision rule requires a probability between 0.5 and 1, got ${rule.probability}`);
  }
  if (rule.kind === 'guarded' && !(rule.multiple >= 0)) {
    throw new RangeError(`decision rule requires a guard band multiple >= 0, got ${rule.multiple}`);
  }
}

function byProbability(wanted: number, within: number, beyond: number): Decision {
  const level = `${Number((100 * wanted).toPrecision(6))} %`;
  if (within >= wanted) return { verdict: 'met', reason: `the probability of conforming reaches ${level}` };
  if (beyond >= wanted) {
    return { verdict: 'not met', reason: `the probability of lying beyond a limit reaches ${level}` };
  }
  return {
    verdict: 'undecided',
    reason: `neither conforming nor lying beyond a limit reaches ${level} probability`,
  };
}

function contains(interval: ToleranceInterval | { readonly absent: string }, value: number): boolean {
  if ('absent' in interval) return false;
  const { from, to } = interval;
  return (from === undefined || value >= from) && (to === undefined || value <= to);
}
