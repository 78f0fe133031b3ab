import { ascending } from './ascending.js';
import { coverageInterval } from './coverageInterval.js';

/** A sample in figures. */
export interface SampleSummary {
  readonly mean: number;
  readonly standardUncertainty: number;
  readonly median: number;
  readonly symmetric: readonly [low: number, high: number];
  readonly shortest: readonly [low: number, high: number];
}

/**
 * Mean, standard deviation, median and coverage intervals of a sample.
 *
 * @param values - finite, in any order; enough for the coverage (see `coverageInterval`)
 * @param coverage - probability between 0 and 1 exclusive
 * @returns figures in the unit of the values; the standard uncertainty has the divisor M - 1
 * @throws {RangeError} too few values
 *
 * Source: JCGM 101:2008, 7.6 and 7.7. Cost: a sort of a copy.
 */
export function summariseSample(values: Float64Array, coverage: number): SampleSummary {
  const sorted = ascending(values);
  const intervals = coverageInterval(sorted, coverage);
  const m = sorted.length;
  let sum = 0;
  for (let i = 0; i < m; i++) sum += sorted[i]!;
  const mean = sum / m;
  let squares = 0;
  for (let i = 0; i < m; i++) squares += (sorted[i]! - mean) ** 2;
  const median = (sorted[(m - 1) >> 1]! + sorted[m >> 1]!) / 2;
  return { mean, standardUncertainty: Math.sqrt(squares / (m - 1)), median, ...intervals };
}
