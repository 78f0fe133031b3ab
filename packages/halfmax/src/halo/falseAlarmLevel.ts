import type { RandomStream } from '../numeric/index.js';
import type { DiskCandidate } from './diskCandidates.js';
import { dotFrom, takeOut } from './leastSquares.js';

const EULER = 0.5772156649015329;

/**
 * Significance that the best of all candidates reaches by noise alone with a given probability.
 *
 * @param candidates - that are searched, at least one
 * @param orthonormal - background, wings and known disks, which are taken out first; length of the rings each
 * @param falseAlarm - probability, above 0 and below 1
 * @param draws - images of pure noise to simulate, >= 50
 * @param stream - random numbers
 * @returns standard deviations, about 3 to 5
 *
 * Source: law of the largest of many: Gumbel, Statistics of Extremes (1958), fitted by mean and standard deviation.
 * Cost: O(draws x candidates x rings).
 */
export function falseAlarmLevel(
  candidates: readonly DiskCandidate[],
  orthonormal: readonly Float64Array[],
  falseAlarm: number,
  draws: number,
  stream: RandomStream,
): number {
  const n = orthonormal[0]!.length;
  // Neighbouring candidates are alike: every other outer radius gives the same largest to a few hundredths.
  const radii = [...new Set(candidates.map(({ outer }) => outer))];
  const kept = new Set(n > 120 ? radii.filter((_, k) => k % 2 === 0) : radii);
  const thinned = candidates.filter(({ outer }) => kept.has(outer));
  const noise = new Float64Array(n);
  let sum = 0;
  let squares = 0;
  for (let draw = 0; draw < draws; draw++) {
    for (let k = 0; k < n; k++) noise[k] = stream.normal();
    takeOut(noise, orthonormal);
    const significance = largest(thinned, noise);
    sum += significance;
    squares += significance * significance;
  }
  const mean = sum / draws;
  const scale = (Math.sqrt(Math.max(0, squares / draws - mean * mean)) * Math.sqrt(6)) / Math.PI;
  return mean - EULER * scale - scale * Math.log(-Math.log(1 - falseAlarm));
}

/** Largest surface brightness over its standard uncertainty of all candidates. */
function largest(candidates: readonly DiskCandidate[], residuals: Float64Array): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const { first, column, own } of candidates) {
    most = Math.max(most, dotFrom(column, residuals, first) / own);
  }
  return most;
}
