import { COARSE, descend, NEGLIGIBLE } from './descend.js';
import type { StaticCells } from './diskCells.js';
import { disksFrom, layOut } from './diskLayout.js';
import type { DiskStart } from './diskShape.js';
import { edgeVariance } from './edgeVariance.js';
import type { RingSums } from './ringSums.js';
import type { RingTable } from './ringTable.js';

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
  /** Weighted sum of squares, comparable between fits with the same weights. */
  readonly sum: number;
  readonly weights: Float64Array;
  /** Sum of squares, each cell held to what an outlier may cost at most: comparable between fits of any weights. */
  readonly loss: number;
  /** Model of each cell, and the disks' part of it, counts; index as in the table. */
  readonly model: Float64Array;
  readonly diskLight: Float64Array;
}

/** A cell this many standard deviations from the model counts for nothing. */
export const BIWEIGHT = 6;
/** The same against the median of its ring, which is not the model. */
const FAR = 10;

/**
 * Fits background, wings and disks to the cells by damped Gauss-Newton steps with robust weights.
 *
 * @param table - cells ready for fitting
 * @param cells - their background and wings
 * @param starts - disks to begin with
 * @param given - weights of the cells to keep, as of an earlier fit, summed up; left out: robust weights are found
 * @returns the fit; `fitResponse` gives what its uncertainties need
 *
 * Source: Marquardt, J. SIAM 11, 431 (1963); biweight: Beaton, Tukey, Technometrics 16, 147 (1974).
 * Cost: O(rounds x cells x p^2).
 */
export function fitDisks(
  table: RingTable,
  cells: StaticCells,
  starts: readonly DiskStart[],
  given?: RingSums,
): DiskFit {
  const layout = layOut(starts, cells.fixed);
  const { begins, size: p } = layout;
  const weights = given?.weights ?? startWeights(table, cells, starts);
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
      given ?? cells.vectors.sum(weights),
      starts,
      parameters,
      given === undefined ? NEGLIGIBLE : COARSE,
    );
    const disks = disksFrom(parameters, starts, begins);
    cells.vectors.model(disks, parameters, model, diskLight);
    for (let k = 0; k < model.length; k++) {
      if (!Number.isNaN(table.counts[k]!)) continue;
      model[k] = 0;
      diskLight[k] = 0;
    }
    if (pass === passes - 1) break;
    const variance = edgeVariance(table, cells, disks);
    for (let k = 0; k < weights.length; k++)
      weights[k] = robustWeight(table.counts[k]!, model[k]!, variance[k]!, BIWEIGHT);
  }

  let sum = 0;
  let loss = 0;
  for (let k = 0; k < weights.length; k++) {
    if (Number.isNaN(table.counts[k]!) || !(table.variance[k]! > 0)) continue;
    const residual = table.counts[k]! - model[k]!;
    loss += biweightLoss((residual * residual) / table.variance[k]!);
    sum += weights[k]! * residual * residual;
  }
  const disks = disksFrom(parameters, starts, begins);
  return { disks, parameters, begins, sum, loss, weights, model, diskLight };
}

/** Weights of the cells before any fit: how far each is from the median of its ring, known disks taken out. */
function startWeights(table: RingTable, cells: StaticCells, disks: readonly DiskStart[]): Float64Array {
  const variance = edgeVariance(table, cells, disks);
  const { counts, median, light, sectors } = table;
  for (let k = 0; k < counts.length; k++)
    variance[k] = robustWeight(counts[k]!, median[Math.floor(k / sectors)]! + light[k]!, variance[k]!, FAR);
  return variance;
}

/** Of the square of a deviation: itself where it is small, a constant beyond the reach of the biweight. */
function biweightLoss(square: number): number {
  const left = 1 - Math.min(1, square / (BIWEIGHT * BIWEIGHT));
  return ((BIWEIGHT * BIWEIGHT) / 3) * (1 - left * left * left);
}

function robustWeight(value: number, expected: number, variance: number, reach: number): number {
  if (Number.isNaN(value) || !(variance > 0)) return 0;
  const deviation = value - expected;
  const left = 1 - (deviation * deviation) / (reach * reach * variance);
  return left <= 0 ? 0 : (left * left) / variance;
}
