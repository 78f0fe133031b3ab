import type { DiskFit } from './fitDisks.js';
import type { Misfit } from './fitMisfit.js';
import { solveSymmetric } from './solveSymmetric.js';

/**
 * Standard uncertainties of the parameters of a fit: from what the sectors say apart and from the misfit of the
 * rings, but not less than the noise of the cells gives.
 *
 * @param fit - as fitted
 * @param misfit - of its rings
 * @returns one for each parameter; Infinity where nothing is known of it
 *
 * Source: covariance of clustered data: Liang, Zeger, Biometrika 73, 13 (1986).
 */
export function diskUncertainties(fit: DiskFit, misfit: Misfit): Float64Array {
  const p = fit.parameters.length;
  const total = sumOf(fit.matrices, p * p);
  const sectors = fit.scores.length;
  const mean = sumOf(fit.scores, p);
  const out = new Float64Array(p).fill(Number.POSITIVE_INFINITY);
  for (let j = 0; j < p; j++) {
    const unit = new Float64Array(p);
    unit[j] = 1;
    const row = solveSymmetric(total, unit, p, 0);
    if (row === null) return out;
    let clustered = 0;
    for (const score of fit.scores) {
      let change = 0;
      for (let k = 0; k < p; k++) change += row[k]! * (score[k]! - mean[k]! / sectors);
      clustered += change * change;
    }
    let fromRings = 0;
    fit.ringScores.forEach((score, i) => {
      let change = 0;
      for (let k = 0; k < p; k++) change += row[k]! * score[k]!;
      fromRings += change * change * misfit.extraVariance[i]!;
    });
    clustered *= sectors / (sectors - 1);
    out[j] = Math.sqrt(Math.max(clustered, row[j]!) + fromRings);
  }
  return out;
}

/** Sum of arrays of one length. */
export function sumOf(arrays: readonly Float64Array[], length: number): Float64Array {
  const sum = new Float64Array(length);
  for (const array of arrays) for (let k = 0; k < length; k++) sum[k]! += array[k]!;
  return sum;
}
