import { diskRow, isEvenRing, type StaticCells } from './diskCells.js';
import { disksFrom, type Layout } from './diskLayout.js';
import type { DiskStart } from './diskShape.js';
import type { RingSums } from './ringSums.js';
import type { RingTable } from './ringTable.js';

/** Normal equations at some parameters (lower half of the matrix), and the weighted sum of squares. */
export interface NormalEquations {
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  readonly sum: number;
}

/**
 * Makes the function that sets up normal equations. It is where the time of a measurement goes: rings that no edge
 * reaches are taken as a whole, and of the cells of others only the parameters that they answer to.
 *
 * @param table - cells that are fitted
 * @param cells - their background and wings
 * @param layout - where the parameters lie
 * @param sums - weights of the cells, and what rings bring as a whole
 * @param starts - disks, and what of them is free
 * @returns the function of the parameters
 */
export function normalEquations(
  table: RingTable,
  cells: StaticCells,
  layout: Layout,
  sums: RingSums,
  starts: readonly DiskStart[],
): (theta: Float64Array) => NormalEquations {
  const { fixed, size: p, begins } = layout;
  const rings = table.radius.length;
  const row = new Float64Array(p);
  const touched = new Int32Array(p);
  const change = new Float64Array(fixed);
  return (theta) => {
    const disks = disksFrom(theta, starts, begins);
    const matrix = new Float64Array(p * p);
    for (let a = 0; a < fixed; a++) {
      for (let b = 0; b < fixed; b++) matrix[a * p + b] = sums.block[a * fixed + b]!;
    }
    const right = new Float64Array(p);
    for (let j = 0; j < fixed; j++) change[j] = theta[j]! - sums.origin[j]!;
    let sum = 0;
    for (let i = 0; i < rings; i++) {
      if (!(sums.weight[i]! > 0)) continue;
      if (disks.every((disk) => isEvenRing(table, cells, i, disk))) {
        row.fill(0, fixed);
        const light = diskRow(table, cells, layout, cells.first[i]!, disks, row);
        const many = touchedBy(row, fixed, touched);
        sum += addRing(sums, i, change, light, row, touched, many, matrix, right);
        continue;
      }
      for (let k = i * table.sectors; k < (i + 1) * table.sectors; k++) {
        const weight = sums.weights[k]!;
        if (!(weight > 0)) continue;
        let residual = table.counts[k]! - diskRow(table, cells, layout, k, disks, row);
        for (let j = 0; j < fixed; j++) residual -= theta[j]! * cells.rows[k * fixed + j]!;
        const many = touchedBy(row, fixed, touched);
        sum += addCell(cells.rows, k * fixed, fixed, weight, residual, row, touched, many, matrix, right);
      }
    }
    return { matrix, right, sum };
  };
}

/** Writes down which of the disks' parameters a row answers to; gives their number. */
function touchedBy(row: Float64Array, fixed: number, touched: Int32Array): number {
  let many = 0;
  for (let a = fixed; a < row.length; a++) if (row[a] !== 0) touched[many++] = a;
  return many;
}

/** Adds a ring in which the disks' light is the same everywhere; gives its sum of squares. */
function addRing(
  sums: RingSums,
  ring: number,
  change: Float64Array,
  light: number,
  row: Float64Array,
  touched: Int32Array,
  many: number,
  matrix: Float64Array,
  right: Float64Array,
): number {
  const fixed = change.length;
  const { rows, scores, products } = sums;
  const base = ring * fixed;
  const weight = sums.weight[ring]!;
  // Residual r - c f - l, with r that at the origin, f the functions, c the change of their coefficients, l the light.
  let left = sums.residual[ring]! - light * weight;
  let sum = sums.squares[ring]! - light * (sums.residual[ring]! + left);
  for (let a = 0; a < fixed; a++) {
    const at = (base + a) * fixed;
    let moved = 0;
    for (let b = 0; b < fixed; b++) moved += products[at + b]! * change[b]!;
    const share = scores[base + a]! - light * rows[base + a]!;
    right[a]! += share - moved;
    sum -= change[a]! * (2 * share - moved);
    left -= change[a]! * rows[base + a]!;
  }
  addDisks(rows, base, fixed, 1, weight, left, row, touched, many, matrix, right);
  return sum;
}

/** Adds a cell, but for the block of background and wings; gives its square. */
function addCell(
  rows: Float64Array,
  base: number,
  fixed: number,
  weight: number,
  residual: number,
  row: Float64Array,
  touched: Int32Array,
  many: number,
  matrix: Float64Array,
  right: Float64Array,
): number {
  const weighted = weight * residual;
  for (let j = 0; j < fixed; j++) right[j]! += weighted * rows[base + j]!;
  addDisks(rows, base, fixed, weight, weight, weighted, row, touched, many, matrix, right);
  return weighted * residual;
}

/**
 * Adds what a cell, or a ring as a whole, tells of the disks' parameters: `scale` brings its background and wings to
 * weighted ones, `residual` is weighted.
 */
function addDisks(
  rows: Float64Array,
  base: number,
  fixed: number,
  scale: number,
  weight: number,
  residual: number,
  row: Float64Array,
  touched: Int32Array,
  many: number,
  matrix: Float64Array,
  right: Float64Array,
): void {
  const p = right.length;
  for (let m = 0; m < many; m++) {
    const a = touched[m]!;
    const value = row[a]!;
    right[a]! += residual * value;
    const beside = scale * value;
    for (let b = 0; b < fixed; b++) matrix[a * p + b]! += beside * rows[base + b]!;
    const own = weight * value;
    for (let l = 0; l <= m; l++) matrix[a * p + touched[l]!]! += own * row[touched[l]!]!;
  }
}
