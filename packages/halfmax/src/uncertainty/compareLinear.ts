import { numericalTolerance } from './numericalTolerance.js';

/** Whether the first-order law may be used in place of Monte Carlo. */
export interface LinearComparison {
  /** Both distances are within the tolerance. */
  readonly agrees: boolean;
  /** Distance of the low ends. */
  readonly lowDistance: number;
  /** Distance of the high ends. */
  readonly highDistance: number;
  readonly tolerance: number;
}

/**
 * Validates a coverage interval of the first-order law against one by Monte Carlo.
 *
 * @param monteCarlo - standard uncertainty and coverage interval, which should be stable to a fifth of the tolerance
 *   (`toleranceDivisor: 5` of `propagate`)
 * @param linear - interval of the first-order law at the same coverage probability
 * @param digits - significant digits of the standard uncertainty regarded as meaningful, 1 or 2
 * @returns distances of the end points and whether each is no larger than the tolerance
 * @throws {RangeError} digits other than 1 or 2, or standard uncertainty not greater than 0
 *
 * Source: JCGM 101:2008, 8.1 and 8.2 (from memory).
 */
export function compareLinear(
  monteCarlo: {
    readonly standardUncertainty: number;
    readonly interval: readonly [low: number, high: number];
  },
  linear: { readonly interval: readonly [low: number, high: number] },
  digits: 1 | 2,
): LinearComparison {
  const tolerance = numericalTolerance(monteCarlo.standardUncertainty, digits);
  const lowDistance = Math.abs(linear.interval[0] - monteCarlo.interval[0]);
  const highDistance = Math.abs(linear.interval[1] - monteCarlo.interval[1]);
  return {
    agrees: lowDistance <= tolerance && highDistance <= tolerance,
    lowDistance,
    highDistance,
    tolerance,
  };
}
