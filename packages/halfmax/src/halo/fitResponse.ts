import { addTo, evaluate, lightDoubt, type StaticCells } from './diskCells.js';
import { layOut } from './diskLayout.js';
import { BIWEIGHT, type DiskFit } from './fitDisks.js';
import { addTimes } from './leastSquares.js';
import type { RingTable } from './ringTable.js';

/** A fit together with how it answers to changes of the cells. */
export interface AnsweringFit extends DiskFit {
  /** Normal equations of each sector at the solution (p x p) and their right sides (p). */
  readonly matrices: readonly Float64Array[];
  readonly scores: readonly Float64Array[];
  /** Response of the right side to a change of each ring by one count in all its sectors (p). */
  readonly ringScores: readonly Float64Array[];
  /** Response to the standard uncertainty of the shape of the disks' edges, which all of them share (p). */
  readonly edgeScore: Float64Array;
  /**
   * Weights over the slopes of the biweight's influence: by so much a fit that weighs its cells answers more strongly
   * to a change of them than one whose weights are given. 1.12 for normal noise.
   */
  readonly response: number;
  /** Residual of each ring (counts), its standard uncertainty, and the light of the wings there. */
  readonly ringResidual: Float64Array;
  readonly ringUncertainty: Float64Array;
  readonly wingLight: Float64Array;
}

/**
 * How a fit answers to changes of the cells: what a bootstrap over sectors and the misfit of the rings need.
 *
 * @param table - cells that were fitted
 * @param cells - their background and wings
 * @param fit - of them
 * @returns the fit with its answers
 *
 * Cost: O(cells x p^2).
 */
export function fitResponse(table: RingTable, cells: StaticCells, fit: DiskFit): AnsweringFit {
  const { parameters, disks, weights } = fit;
  const layout = layOut(disks, cells.fixed);
  const { size: p } = layout;
  const n = table.radius.length;
  const matrices = Array.from({ length: table.sectors }, () => new Float64Array(p * p));
  const scores = Array.from({ length: table.sectors }, () => new Float64Array(p));
  const ringScores = Array.from({ length: n }, () => new Float64Array(p));
  const edgeScore = new Float64Array(p);
  const ringResidual = new Float64Array(n);
  const ringUncertainty = new Float64Array(n);
  const wingLight = new Float64Array(n);
  const row = new Float64Array(p);
  const totals = new Float64Array(n);
  const used = new Int32Array(n);
  // In small functions, called for every cell: they are compiled soon.
  const addCell = (k: number, i: number, s: number): void => {
    const weight = weights[k]!;
    if (weight === 0) return;
    const residual = table.counts[k]! - evaluate(table, cells, layout, k, parameters, disks, row);
    addTo(matrices[s]!, scores[s]!, row, weight, residual, p);
    addTimes(ringScores[i]!, weight, row);
    const doubt = lightDoubt(table, cells, k, disks);
    if (doubt !== 0) addTimes(edgeScore, weight * doubt, row);
    wingLight[i]! += wingsOf(parameters, row, cells.fixed);
    ringResidual[i]! += weight * residual;
    totals[i]! += weight;
    used[i]!++;
  };
  // Sector by sector: the matrix of one is then at hand.
  for (let s = 0; s < table.sectors; s++) {
    for (let i = 0; i < n; i++) addCell(i * table.sectors + s, i, s);
  }
  for (let i = 0; i < n; i++) {
    const total = totals[i]!;
    ringResidual[i]! /= total || 1;
    wingLight[i]! /= used[i]! || 1;
    ringUncertainty[i] = total > 0 ? 1 / Math.sqrt(total) : Number.POSITIVE_INFINITY;
  }
  return {
    ...fit,
    matrices,
    scores,
    ringScores,
    edgeScore,
    response: answer(table, fit),
    ringResidual,
    ringUncertainty,
    wingLight,
  };
}

/** Light of the wings in a cell, counts. */
function wingsOf(parameters: Float64Array, row: Float64Array, fixed: number): number {
  let light = 0;
  for (let j = 3; j < fixed; j++) light += parameters[j]! * row[j]!;
  return light;
}

function answer(table: RingTable, { model }: DiskFit): number {
  let heights = 0;
  let slopes = 0;
  for (let k = 0; k < model.length; k++) {
    if (Number.isNaN(table.counts[k]!) || !(table.variance[k]! > 0)) continue;
    const deviation = (table.counts[k]! - model[k]!) / Math.sqrt(table.variance[k]!);
    const left = 1 - Math.min(1, (deviation / BIWEIGHT) ** 2);
    heights += left * left;
    slopes += left * (5 * left - 4);
  }
  return heights / Math.max(slopes, 0.5 * heights);
}
