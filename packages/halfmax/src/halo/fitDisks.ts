import { COARSE, descend, NEGLIGIBLE } from './descend.js';
import { addTo, evaluate, staticCells } from './diskCells.js';
import { disksFrom, layOut } from './diskLayout.js';
import type { DiskStart } from './diskShape.js';
import { edgeVariance } from './edgeVariance.js';
import type { RingTable } from './ringTable.js';
import type { WingModel } from './wings.js';

/** Background, wings and disks fitted to the cells together. */
export interface DiskFit {
  readonly disks: readonly DiskStart[];
  /**
   * Level, slope along x and y (counts, counts a pixel), coefficients of the wings, then for each disk surface
   * brightness and where free its outer radius and blur, its inner radius, dx and dy.
   */
  readonly parameters: Float64Array;
  /** Where the parameters of each disk begin. */
  readonly begins: readonly number[];
  /** Normal equations of each sector at the solution (p x p) and their right sides (p). */
  readonly matrices: readonly Float64Array[];
  readonly scores: readonly Float64Array[];
  /** Response of the right side to a change of each ring by one count in all its sectors (p). */
  readonly ringScores: readonly Float64Array[];
  /** Weighted sum of squares, comparable between fits with the same weights. */
  readonly sum: number;
  readonly weights: Float64Array;
  /**
   * Weights over the slopes of the biweight's influence: by so much a fit that weighs its cells answers more strongly
   * to a change of them than one whose weights are given. 1.12 for normal noise.
   */
  readonly response: number;
  /** Sum of squares, each cell held to what an outlier may cost at most: comparable between fits of any weights. */
  readonly loss: number;
  /** Residual of each ring (counts), its standard uncertainty, and the light of the wings there. */
  readonly ringResidual: Float64Array;
  readonly ringUncertainty: Float64Array;
  readonly wingLight: Float64Array;
  /** Model of each cell, and the disks' part of it, counts; index as in the table. */
  readonly model: Float64Array;
  readonly diskLight: Float64Array;
}

/** A cell this many standard deviations from the model counts for nothing. */
const BIWEIGHT = 6;
/** The same against the median of its ring, which is not the model. */
const FAR = 10;

/**
 * Fits background, wings and disks to the cells by damped Gauss-Newton steps with robust weights.
 *
 * @param table - cells ready for fitting
 * @param wings - functions of the wings
 * @param starts - disks to begin with
 * @param given - weights of the cells to keep, as of an earlier fit; left out: robust weights are found
 * @returns the fit with what a bootstrap over sectors needs
 *
 * Source: Marquardt, J. SIAM 11, 431 (1963); biweight: Beaton, Tukey, Technometrics 16, 147 (1974).
 * Cost: O(rounds x cells x p^2).
 */
export function fitDisks(
  table: RingTable,
  wings: WingModel,
  starts: readonly DiskStart[],
  given?: Float64Array,
): DiskFit {
  const layout = layOut(starts, 3 + wings.size);
  const { begins, size: p } = layout;
  const n = table.radius.length;
  const cells = staticCells(table, wings);
  const weights = given === undefined ? startWeights(table, starts) : given.slice();
  let parameters: Float64Array = new Float64Array(p);
  starts.forEach((start, d) => {
    let at = begins[d]!;
    parameters[at++] = start.surface;
    if (start.radiusFree) {
      parameters[at++] = start.outer;
      parameters[at++] = start.blur;
    }
    if (start.holeFree) parameters[at++] = start.inner;
    if (start.placeFree) parameters.set([start.dx, start.dy], at);
  });
  const model = new Float64Array(table.counts.length);
  const diskLight = new Float64Array(table.counts.length);

  // Fit with the weights at hand, weigh each cell by what the fit leaves of it, fit again.
  const passes = given === undefined ? 2 : 1;
  for (let pass = 0; pass < passes; pass++) {
    parameters = descend(
      table,
      cells,
      layout,
      weights,
      starts,
      parameters,
      given === undefined ? NEGLIGIBLE : COARSE,
    );
    const disks = disksFrom(parameters, starts, begins);
    const row = new Float64Array(p);
    const variance = pass < passes - 1 ? edgeVariance(table, disks) : table.variance;
    for (let k = 0; k < weights.length; k++) {
      if (Number.isNaN(table.counts[k]!)) continue;
      model[k] = evaluate(table, cells, layout, k, parameters, disks, row);
      diskLight[k] = disks.reduce((light, disk, d) => light + disk.surface * row[begins[d]!]!, 0);
      if (pass < passes - 1) weights[k] = robustWeight(table.counts[k]!, model[k]!, variance[k]!, BIWEIGHT);
    }
  }

  const disks = disksFrom(parameters, starts, begins);
  const matrices = Array.from({ length: table.sectors }, () => new Float64Array(p * p));
  const scores = Array.from({ length: table.sectors }, () => new Float64Array(p));
  const ringScores = Array.from({ length: n }, () => new Float64Array(p));
  const ringResidual = new Float64Array(n);
  const ringUncertainty = new Float64Array(n);
  const wingLight = new Float64Array(n);
  const row = new Float64Array(p);
  let sum = 0;
  let loss = 0;
  let heights = 0;
  let slopes = 0;
  for (let k = 0; k < weights.length; k++) {
    if (Number.isNaN(table.counts[k]!) || !(table.variance[k]! > 0)) continue;
    const deviation = (table.counts[k]! - model[k]!) / Math.sqrt(table.variance[k]!);
    loss += biweightLoss(deviation);
    const left = 1 - Math.min(1, (deviation / BIWEIGHT) ** 2);
    heights += left * left;
    slopes += left * (5 * left - 4);
  }
  for (let i = 0; i < n; i++) {
    let total = 0;
    let used = 0;
    for (let s = 0; s < table.sectors; s++) {
      const k = i * table.sectors + s;
      const weight = weights[k]!;
      if (weight === 0) continue;
      const value = evaluate(table, cells, layout, k, parameters, disks, row);
      const residual = table.counts[k]! - value;
      addTo(matrices[s]!, scores[s]!, row, weight, residual, p);
      for (let j = 0; j < p; j++) ringScores[i]![j]! += weight * row[j]!;
      for (let j = 0; j < wings.size; j++) wingLight[i]! += parameters[3 + j]! * row[3 + j]!;
      ringResidual[i]! += weight * residual;
      total += weight;
      used++;
      sum += weight * residual * residual;
    }
    ringResidual[i]! /= total || 1;
    wingLight[i]! /= used || 1;
    ringUncertainty[i] = total > 0 ? 1 / Math.sqrt(total) : Number.POSITIVE_INFINITY;
  }
  return {
    disks,
    parameters,
    begins,
    matrices,
    scores,
    ringScores,
    sum,
    loss,
    response: heights / Math.max(slopes, 0.5 * heights),
    weights,
    ringResidual,
    ringUncertainty,
    wingLight,
    model,
    diskLight,
  };
}

/** Weights of the cells before any fit: how far each is from the median of its ring, known disks taken out. */
function startWeights(table: RingTable, disks: readonly DiskStart[]): Float64Array {
  const variance = edgeVariance(table, disks);
  return Float64Array.from(table.counts, (value, k) =>
    robustWeight(value, table.median[Math.floor(k / table.sectors)]! + table.light[k]!, variance[k]!, FAR),
  );
}

/** Square of a deviation that is small, a constant beyond the reach of the biweight. */
function biweightLoss(deviation: number): number {
  const u = Math.min(1, Math.abs(deviation) / BIWEIGHT);
  return (BIWEIGHT ** 2 / 3) * (1 - (1 - u * u) ** 3);
}

function robustWeight(value: number, expected: number, variance: number, reach: number): number {
  if (Number.isNaN(value) || !(variance > 0)) return 0;
  const u = (value - expected) / (reach * Math.sqrt(variance));
  return Math.abs(u) >= 1 ? 0 : (1 - u * u) ** 2 / variance;
}
