import type { RandomStream } from '../numeric/index.js';
import type { DiskCandidate } from './diskCandidates.js';
import { takeOut } from './leastSquares.js';

const EULER = 0.5772156649015329;
/** Draws that a candidate is held against at a time: one sum need then not wait for the other. */
const TOGETHER = 4;

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
  const noises = Array.from({ length: TOGETHER }, () => new Float64Array(n));
  const most = new Float64Array(TOGETHER);
  let sum = 0;
  let squares = 0;
  for (let draw = 0; draw < draws; draw += TOGETHER) {
    const many = Math.min(TOGETHER, draws - draw);
    for (const noise of noises.slice(0, many)) {
      for (let k = 0; k < n; k++) noise[k] = stream.normal();
      takeOut(noise, orthonormal);
    }
    fillLargest(thinned, noises, most);
    for (let one = 0; one < many; one++) {
      sum += most[one]!;
      squares += most[one]! * most[one]!;
    }
  }
  const mean = sum / draws;
  const scale = (Math.sqrt(Math.max(0, squares / draws - mean * mean)) * Math.sqrt(6)) / Math.PI;
  return mean - EULER * scale - scale * Math.log(-Math.log(1 - falseAlarm));
}

/** Largest surface brightness over its standard uncertainty of all candidates, in each of four draws. */
function fillLargest(
  candidates: readonly DiskCandidate[],
  noises: readonly Float64Array[],
  most: Float64Array,
): void {
  const [a, b, c, d] = noises as [Float64Array, Float64Array, Float64Array, Float64Array];
  most.fill(Number.NEGATIVE_INFINITY);
  for (const { first, column, own } of candidates) {
    let inA = 0;
    let inB = 0;
    let inC = 0;
    let inD = 0;
    for (let i = 0; i < column.length; i++) {
      const light = column[i]!;
      inA += light * a[first + i]!;
      inB += light * b[first + i]!;
      inC += light * c[first + i]!;
      inD += light * d[first + i]!;
    }
    most[0] = Math.max(most[0]!, inA / own);
    most[1] = Math.max(most[1]!, inB / own);
    most[2] = Math.max(most[2]!, inC / own);
    most[3] = Math.max(most[3]!, inD / own);
  }
}
