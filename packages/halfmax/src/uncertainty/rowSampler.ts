import { vectorTrials } from '../vector/index.js';
import type { Distribution } from './distribution.js';
import { distributionSize } from './distributionSize.js';
import { normalRows, type RowSampler } from './normalRows.js';
import { sampler } from './sampler.js';

/** Trials side by side for which independent normal numbers are made quickest: what a model for rows had best take. */
export const rowTrials: number = vectorTrials;

/**
 * A sampler of a distribution for many trials side by side.
 *
 * @param distribution - any kind
 * @param trials - numbers in a row
 * @returns function that fills a row for each number of the distribution; the same stream in the same state gives the
 *   same numbers
 * @throws {RangeError} parameters out of range, or a covariance that is not positive semidefinite
 */
export function rowSampler(distribution: Distribution, trials: number): RowSampler {
  const size = distributionSize(distribution);
  if (distribution.kind === 'independentNormal' && trials === rowTrials)
    return normalRows(
      Float64Array.from(distribution.mean),
      Float64Array.from(distribution.standardUncertainty),
    );
  const one = sampler(distribution);
  const drawn = new Float64Array(size);
  return (stream, x, at) => {
    for (let trial = 0; trial < trials; trial++) {
      one(stream, drawn, 0);
      for (let i = 0; i < size; i++) x[at + i * trials + trial] = drawn[i]!;
    }
  };
}
