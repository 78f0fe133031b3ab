import type { StaticCells } from './diskCells.js';
import { disksFrom, type Layout } from './diskLayout.js';
import type { DiskStart } from './diskShape.js';
import type { RingSums } from './ringSums.js';

/** Normal equations at some parameters (lower half of the matrix), and the weighted sum of squares. */
export interface NormalEquations {
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  readonly sum: number;
}

/**
 * Makes the function that sets up normal equations. It is where the time of a measurement went: rings that no edge
 * reaches are taken as a whole, the cells of others by the vector code (`assembly/rings.ts`).
 *
 * @param cells - background and wings of the cells that are fitted
 * @param layout - where the parameters lie
 * @param sums - weights of the cells, and what rings bring as a whole
 * @param starts - disks, and what of them is free
 * @returns the function of the parameters
 */
export function normalEquations(
  cells: StaticCells,
  layout: Layout,
  sums: RingSums,
  starts: readonly DiskStart[],
): (theta: Float64Array) => NormalEquations {
  const { fixed, size: p, begins } = layout;
  return (theta) => {
    const matrix = new Float64Array(p * p);
    for (let a = 0; a < fixed; a++) {
      for (let b = 0; b < fixed; b++) matrix[a * p + b] = sums.block[a * fixed + b]!;
    }
    const right = new Float64Array(p);
    const disks = disksFrom(theta, starts, begins);
    const sum = cells.vectors.add(sums, disks, begins, theta, matrix, right);
    return { matrix, right, sum };
  };
}
