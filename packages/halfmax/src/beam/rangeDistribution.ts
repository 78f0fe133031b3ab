import type { Distribution } from '../uncertainty/index.js';

/**
 * What is known of a number between two limits: all between as likely, or the number itself where they are one.
 *
 * @param low - lower limit
 * @param high - upper limit, not below the lower
 * @returns the distribution
 * Source: JCGM 101:2008, 6.4.2.
 */
export function rangeDistribution(low: number, high: number): Distribution {
  return low === high
    ? { kind: 'normal', mean: low, standardUncertainty: 0 }
    : { kind: 'rectangular', lower: low, upper: high };
}
