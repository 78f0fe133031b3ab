import type { Model } from './distribution.js';
import { requireCount } from './requireCount.js';

/** What the first-order law gives. */
export interface LinearResult {
  /** The model at the means, one per output. */
  readonly values: Float64Array;
  /** Standard uncertainty, one per output. */
  readonly standardUncertainties: Float64Array;
  /** Covariance of the outputs, rows of outputs. */
  readonly covariance: Float64Array[];
  /** Derivative of each output (row) by each input (column). */
  readonly sensitivities: Float64Array[];
}

/**
 * Propagates means and covariances through a model by the law of first order, with slopes by central differences.
 *
 * @param model - function of the inputs
 * @param means - n estimates of the inputs
 * @param covariance - n rows of n, in the units of the inputs
 * @param outputs - how many numbers the model writes
 * @param step - half of the width of a difference, as a fraction of the input's standard uncertainty; 0.1 by default.
 *   An input without uncertainty is stepped by 6e-6 of its size (of 1 where it is 0)
 * @returns values, uncertainties and slopes
 * @throws {RangeError} lengths that do not fit, or a model without a finite result close to the means
 *
 * Source: JCGM 100:2008, 5.1.2, 5.2.2 and (numerical slopes) 5.1.3 note 2; several outputs, JCGM 102:2011, 6.2.
 * Cost: 2n + 1 calls of the model.
 */
export function propagateLinear(
  model: Model,
  means: ArrayLike<number>,
  covariance: ArrayLike<ArrayLike<number>>,
  outputs = 1,
  step = 0.1,
): LinearResult {
  const n = means.length;
  requireCount('propagateLinear', 'outputs', outputs);
  if (!(step > 0)) throw new RangeError(`propagateLinear requires step > 0, got ${step}`);
  if (covariance.length !== n) {
    throw new RangeError(`propagateLinear requires ${n} rows of covariance, got ${covariance.length}`);
  }
  const evaluate = (x: Float64Array): Float64Array => {
    const out = new Float64Array(outputs).fill(Number.NaN);
    model(x, out);
    const bad = out.findIndex((value) => !Number.isFinite(value));
    if (bad >= 0)
      throw new RangeError(`propagateLinear requires finite outputs, got ${out[bad]} for output ${bad}`);
    return out;
  };
  const at = Float64Array.from(means);
  const values = evaluate(at.slice());
  const sensitivities = Array.from({ length: outputs }, () => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    if (covariance[i]!.length !== n) {
      throw new RangeError(`propagateLinear requires ${n} columns in row ${i}, got ${covariance[i]!.length}`);
    }
    const uncertainty = Math.sqrt(covariance[i]![i]!);
    const width = uncertainty > 0 ? step * uncertainty : 6e-6 * (Math.abs(at[i]!) || 1);
    const above = at.slice();
    const below = at.slice();
    above[i]! += width;
    below[i]! -= width;
    // The steps really taken, after rounding.
    const distance = above[i]! - below[i]!;
    const high = evaluate(above);
    const low = evaluate(below);
    for (let k = 0; k < outputs; k++) sensitivities[k]![i] = (high[k]! - low[k]!) / distance;
  }
  const result = sensitivities.map((row) =>
    Float64Array.from(sensitivities, (column) => form(row, covariance, column)),
  );
  // Rounding may leave a singular form a little below zero.
  const standardUncertainties = Float64Array.from(result, (row, k) => Math.sqrt(Math.max(0, row[k]!)));
  return { values, standardUncertainties, covariance: result, sensitivities };
}

function form(a: Float64Array, matrix: ArrayLike<ArrayLike<number>>, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) for (let j = 0; j < b.length; j++) sum += a[i]! * matrix[i]![j]! * b[j]!;
  return sum;
}
