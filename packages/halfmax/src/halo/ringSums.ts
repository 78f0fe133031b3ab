import type { StaticCells } from './diskCells.js';
import type { RingTable } from './ringTable.js';
import { solveSymmetric } from './solveSymmetric.js';

/**
 * What the cells of each ring bring together to a fit with given weights: a ring that no edge of a disk reaches
 * need not be gone through cell by cell. Residuals are those of the background and wings that fit best without a disk.
 */
export interface RingSums {
  /** Of the cells; 0 where one is left out. */
  readonly weights: Float64Array;
  /** Coefficients of background and wings from which residuals are reckoned. */
  readonly origin: Float64Array;
  /** Of each ring: sums of weights, of weighted residuals and of their squares. */
  readonly weight: Float64Array;
  readonly residual: Float64Array;
  readonly squares: Float64Array;
  /** Of each ring, `fixed` numbers: weighted sums of background and wings, and of these times the residual. */
  readonly rows: Float64Array;
  readonly scores: Float64Array;
  /** Of each ring, `fixed` x `fixed` numbers: weighted products of background and wings. */
  readonly products: Float64Array;
  /** The same of all rings together. */
  readonly block: Float64Array;
}

/**
 * Sums up the cells of each ring.
 *
 * @param table - cells that are fitted
 * @param cells - their background and wings
 * @param weights - of the cells
 * @returns the sums
 *
 * Cost: O(cells x fixed^2).
 */
export function ringSums(table: RingTable, cells: StaticCells, weights: Float64Array): RingSums {
  const { counts, sectors } = table;
  const { fixed } = cells;
  const rings = table.radius.length;
  const products = new Float64Array(rings * fixed * fixed);
  const block = new Float64Array(fixed * fixed);
  const right = new Float64Array(fixed);
  for (let i = 0; i < rings; i++) {
    for (let k = i * sectors; k < (i + 1) * sectors; k++) {
      if (weights[k]! > 0) addCell(cells.rows, k * fixed, fixed, weights[k]!, counts[k]!, products, i, right);
    }
    mirror(products, i * fixed * fixed, fixed);
    for (let j = 0; j < block.length; j++) block[j]! += products[i * fixed * fixed + j]!;
  }
  const origin = solveSymmetric(block, right, fixed, 0) ?? new Float64Array(fixed);
  const rows = new Float64Array(rings * fixed);
  const scores = new Float64Array(rings * fixed);
  const weight = new Float64Array(rings);
  const residual = new Float64Array(rings);
  const squares = new Float64Array(rings);
  for (let k = 0; k < weights.length; k++) {
    const w = weights[k]!;
    if (!(w > 0)) continue;
    const i = Math.floor(k / sectors);
    let left = counts[k]!;
    for (let j = 0; j < fixed; j++) left -= origin[j]! * cells.rows[k * fixed + j]!;
    weight[i]! += w;
    residual[i]! += w * left;
    squares[i]! += w * left * left;
    for (let j = 0; j < fixed; j++) {
      const value = w * cells.rows[k * fixed + j]!;
      rows[i * fixed + j]! += value;
      scores[i * fixed + j]! += value * left;
    }
  }
  return { weights, origin, weight, residual, squares, rows, scores, products, block };
}

/** Adds a cell to the lower half of its ring's products, and to the right side. */
function addCell(
  rows: Float64Array,
  base: number,
  fixed: number,
  weight: number,
  counts: number,
  products: Float64Array,
  ring: number,
  right: Float64Array,
): void {
  for (let a = 0; a < fixed; a++) {
    const factor = weight * rows[base + a]!;
    right[a]! += factor * counts;
    const at = (ring * fixed + a) * fixed;
    for (let b = 0; b <= a; b++) products[at + b]! += factor * rows[base + b]!;
  }
}

/** Copies the lower half of a square to the upper one. */
function mirror(products: Float64Array, at: number, fixed: number): void {
  for (let a = 0; a < fixed; a++) {
    for (let b = 0; b < a; b++) products[at + b * fixed + a] = products[at + a * fixed + b]!;
  }
}
