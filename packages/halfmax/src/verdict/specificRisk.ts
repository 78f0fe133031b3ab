import { conformanceProbability } from './conformanceProbability.js';
import type { MeasuredValue } from './measured.js';
import type { Prior } from './prior.js';
import type { ToleranceInterval } from './toleranceInterval.js';

/** Risks of deciding on one item that has been measured. */
export interface SpecificRisk {
  /** Probability that the item does not conform: the risk of accepting it. */
  readonly consumerRisk: number;
  /** Probability that the item conforms: the risk of rejecting it. */
  readonly producerRisk: number;
}

/**
 * Risks of accepting and of rejecting one measured item.
 *
 * @param measured - value with standard uncertainty, or draws
 * @param tolerance - interval, open on a side that is left out
 * @param prior - knowledge from before the measurement
 * @returns two probabilities that add up to 1
 * @throws {RangeError} as `conformanceProbability`
 *
 * Source: JCGM 106:2012, 9.3.
 */
export function specificRisk(
  measured: MeasuredValue,
  tolerance: ToleranceInterval,
  prior?: Prior,
): SpecificRisk {
  const producerRisk = conformanceProbability(measured, tolerance, prior);
  return { consumerRisk: 1 - producerRisk, producerRisk };
}
