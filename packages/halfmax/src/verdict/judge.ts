import type { Claim } from './claim.js';
import { conformanceProbability } from './conformanceProbability.js';
import { decideByBound } from './decideByBound.js';
import { applyRule, type DecisionRule, defaultRule, requireRule, type Verdict } from './decisionRule.js';
import { type Measured, type MeasuredValue, measuredValue } from './measured.js';
import { type ToleranceInterval, toleranceInterval } from './toleranceInterval.js';

/** A claim held against a measurement. */
export interface Judgement {
  readonly verdict: Verdict;
  /** Why, in one sentence. */
  readonly reason: string;
  /** Probability that the true value is within the tolerance, whatever the rule. */
  readonly probabilityMet: number | { readonly absent: string };
  /** Measured minus claimed value or limit, with its standard uncertainty. */
  readonly deviation:
    | { readonly value: number; readonly standardUncertainty: number }
    | { readonly absent: string };
  readonly toleranceInterval: ToleranceInterval | { readonly absent: string };
  readonly rule: DecisionRule;
}

/** How to judge. */
export interface JudgeOptions {
  /** @default { kind: 'probability', probability: 0.95 } */
  readonly rule?: DecisionRule;
  /**
   * Step of the last digit of a claimed value (1 for "3 nm"), whose rounding then counts as a rectangular uncertainty
   * of the deviation. Used only where the claim has no tolerance: limits are taken as written. @default 0
   */
  readonly resolution?: number;
}

/**
 * Holds a claim against a measurement.
 *
 * The default rule says "met" where the probability of conforming is 95 % or more, "not met" where the true value lies
 * beyond one limit with a probability of 95 % or more, and leaves the rest undecided. For one limit and normal errors
 * this is a guard band of 1.645 u on both sides of the limit, so neither the maker nor the buyer bears more than 5 %
 * risk. Simple acceptance would let either bear up to 50 %; the guard band of ISO 14253-1 (multiple 1, coverage factor
 * 2) is the same idea at 2.3 %. The level of 95 % is common practice, not part of JCGM 106, which leaves the choice to
 * the parties. A measurement far coarser than a tolerance with two limits has a small probability of conforming, yet
 * shows nothing: it is undecided, since it points beyond neither limit.
 *
 * Where only a bound was measured, the claim is decided if the bound alone decides it. A value without a tolerance is
 * never passed or failed: the deviation is stated.
 *
 * @param claim - of the data sheet
 * @param measured - in the unit of the claim
 * @param options - decision rule, step of the claim's last digit
 * @returns verdict with probability, deviation and reason
 * @throws {RangeError} arguments out of range
 *
 * Source: JCGM 106:2012, 7.2 to 7.4 (probability of conforming) and 8.2, 8.3 (decision rules).
 * @example
 * judge({ value: 3, tolerance: 0.5 }, { value: 3.6, standardUncertainty: 0.03 }).verdict; // => 'not met'
 */
export function judge(claim: Claim, measured: Measured, options: JudgeOptions = {}): Judgement {
  const { rule = defaultRule, resolution = 0 } = options;
  requireRule(rule);
  if (!(Number.isFinite(resolution) && resolution >= 0)) {
    throw new RangeError(`judge requires resolution >= 0, got ${resolution}`);
  }
  const tolerance = toleranceInterval(claim);
  if ('atLeast' in measured || 'atMost' in measured || 'absent' in measured) {
    const lack = { absent: lackOf(measured) };
    const rest = { probabilityMet: lack, deviation: lack, toleranceInterval: tolerance, rule };
    return 'absent' in tolerance
      ? { ...noTolerance, ...rest, probabilityMet: tolerance }
      : { ...decideByBound(tolerance, measured), ...rest };
  }
  const rest = { deviation: deviationFrom(claim, measured, resolution), toleranceInterval: tolerance, rule };
  if ('absent' in tolerance) return { ...noTolerance, probabilityMet: tolerance, ...rest };
  const probabilityMet = conformanceProbability(measured, tolerance);
  const beyond = Math.max(
    tolerance.from === undefined ? 0 : conformanceProbability(measured, { to: tolerance.from }),
    tolerance.to === undefined ? 0 : conformanceProbability(measured, { from: tolerance.to }),
  );
  const decision = applyRule(rule, tolerance, measuredValue(measured), probabilityMet, beyond);
  return { ...decision, probabilityMet, ...rest };
}

const noTolerance = {
  verdict: 'no tolerance stated',
  reason: 'the claim states no tolerance, so it can be neither met nor missed',
} as const;

function deviationFrom(claim: Claim, measured: MeasuredValue, resolution: number): Judgement['deviation'] {
  const { value, standardUncertainty } = measuredValue(measured);
  if ('atLeast' in claim) return { value: value - claim.atLeast, standardUncertainty };
  if ('atMost' in claim) return { value: value - claim.atMost, standardUncertainty };
  if (claim.tolerance !== undefined) return { value: value - claim.value, standardUncertainty };
  return {
    value: value - claim.value,
    standardUncertainty: Math.hypot(standardUncertainty, resolution / Math.sqrt(12)),
  };
}

function lackOf(measured: Exclude<Measured, MeasuredValue>): string {
  if ('absent' in measured) return measured.absent;
  return 'atLeast' in measured ? 'only a lower bound was measured' : 'only an upper bound was measured';
}
