import type { Misfit } from './fitMisfit.js';
import type { AnsweringFit } from './fitResponse.js';
import { solveSymmetric } from './solveSymmetric.js';

/**
 * Standard uncertainties of the parameters of a fit: from what the sectors say apart, but not less than the noise of
 * the cells gives, from the misfit of the rings and from the unknown shape of the disks' edges.
 *
 * @param fit - as fitted
 * @param misfit - of its rings
 * @returns one for each parameter; Infinity where nothing is known of it
 *
 * Source: covariance of clustered data: Liang, Zeger, Biometrika 73, 13 (1986); with robust weights: Huber, Proc. Fifth
 * Berkeley Symp. 1, 221 (1967).
 */
export function diskUncertainties(fit: AnsweringFit, misfit: Misfit): Float64Array {
  const p = fit.parameters.length;
  const along = uncertaintyAlong(fit, misfit);
  return Float64Array.from({ length: p }, (_, j) => {
    const unit = new Float64Array(p);
    unit[j] = 1;
    return along(unit);
  });
}

/**
 * The same for any number that depends on the parameters.
 *
 * @param fit - as fitted
 * @param misfit - of its rings
 * @returns standard uncertainty of a number, given its derivatives by the parameters; Infinity where nothing is known
 */
export function uncertaintyAlong(fit: AnsweringFit, misfit: Misfit): (gradient: Float64Array) => number {
  const p = fit.parameters.length;
  const total = sumOf(fit.matrices, p * p);
  const sectors = fit.scores.length;
  const mean = sumOf(fit.scores, p).map((value) => value / sectors);
  return (gradient) => {
    const row = solveSymmetric(total, gradient, p, 0);
    if (row === null) return Number.POSITIVE_INFINITY;
    let byNoise = 0;
    for (let k = 0; k < p; k++) byNoise += row[k]! * gradient[k]!;
    let clustered = 0;
    for (const score of fit.scores) {
      let change = 0;
      for (let k = 0; k < p; k++) change += row[k]! * (score[k]! - mean[k]!);
      clustered += change * change;
    }
    let fromRings = 0;
    fit.ringScores.forEach((score, i) => {
      let change = 0;
      for (let k = 0; k < p; k++) change += row[k]! * score[k]!;
      fromRings += change * change * misfit.extraVariance[i]!;
    });
    let fromEdges = 0;
    for (let k = 0; k < p; k++) fromEdges += row[k]! * fit.edgeScore[k]!;
    clustered *= (fit.response ** 2 * sectors) / (sectors - 1);
    return Math.sqrt(Math.max(clustered, byNoise) + fromRings + fromEdges * fromEdges);
  };
}

/** Sum of arrays of one length. */
export function sumOf(arrays: readonly Float64Array[], length: number): Float64Array {
  const sum = new Float64Array(length);
  for (const array of arrays) for (let k = 0; k < length; k++) sum[k]! += array[k]!;
  return sum;
}
