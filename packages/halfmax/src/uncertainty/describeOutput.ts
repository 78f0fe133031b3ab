import { summariseSample } from './summariseSample.js';

/** What is known of one output. */
export interface OutputDistribution {
  readonly mean: number;
  readonly standardUncertainty: number;
  readonly median: number;
  readonly symmetric: readonly [low: number, high: number];
  readonly shortest: readonly [low: number, high: number];
  /** Trials without a finite result, which the figures leave out. */
  readonly failedDraws: number;
}

/**
 * Figures of one output from all its trials.
 *
 * @param sample - values of all trials; one that is not finite marks a trial without a result
 * @param coverage - probability of the intervals
 * @param allowedFailures - largest fraction of trials without a result
 * @returns figures from the trials with a result, or how many had none
 */
export function describeOutput(
  sample: Float64Array,
  coverage: number,
  allowedFailures: number,
): OutputDistribution | { absent: string } {
  const values = finiteValues(sample);
  const failedDraws = sample.length - values.length;
  if (failedDraws > allowedFailures * sample.length) {
    return { absent: `the model had no result in ${failedDraws} of ${sample.length} trials` };
  }
  return { ...summariseSample(values, coverage), failedDraws };
}

/** The values that are finite; the same array where all are. */
export function finiteValues(values: Float64Array): Float64Array {
  for (let i = 0; i < values.length; i++) {
    if (!Number.isFinite(values[i])) return values.filter((value) => Number.isFinite(value));
  }
  return values;
}
