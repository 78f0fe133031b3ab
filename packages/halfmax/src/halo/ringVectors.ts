import { vectorMemory } from '../vector/index.js';
import { diskRoom } from './diskRoom.js';
import type { DiskStart } from './diskShape.js';
import { padded, unpadded } from './paddedRings.js';
import { putRings, type RingCells } from './putRings.js';
import type { RingSums } from './ringSums.js';
import type { RingTable } from './ringTable.js';
import { solveSymmetric } from './solveSymmetric.js';

/** Work on all cells of a fit, by the vector code. Numbers of cells as in the table. */
export interface RingVectors {
  /** Sums up the cells of each ring, weighted so. */
  readonly sum: (weights: Float64Array) => RingSums;
  /** Fills what background, wings and disks have in each cell, and the disks alone, counts. */
  readonly model: (
    disks: readonly DiskStart[],
    theta: Float64Array,
    model: Float64Array,
    light: Float64Array,
  ) => void;
  /**
   * Normal equations but for the block of background and wings, added to `matrix` (p x p, lower half) and `right` (p);
   * gives the weighted sum of squares.
   */
  readonly add: (
    sums: RingSums,
    disks: readonly DiskStart[],
    begins: readonly number[],
    theta: Float64Array,
    matrix: Float64Array,
    right: Float64Array,
  ) => number;
}

/**
 * Brings the cells of a fit into the memory of the vector code.
 *
 * @param table - cells that are fitted
 * @param cells - their places, background and wings
 * @returns what can be done with them
 * @throws {Error} a machine without vectors in WebAssembly
 */
export function ringVectors(table: RingTable, cells: RingCells): RingVectors {
  const vector = vectorMemory();
  const { run, floats } = vector;
  const { sectors } = table;
  const { fixed } = cells;
  const rings = table.radius.length;
  const { record, weights: atWeights, sums: atSums, width } = putRings(vector, table, cells);
  const disksIn = diskRoom(vector, record, width, fixed);
  const perCell = 8 * rings * width;
  const [atModel, atLight] = [vector.take(perCell), vector.take(perCell)];
  const [atBlock, atFixed, atChange] = [fixed * fixed, fixed, fixed].map((count) =>
    vector.take(8 * count),
  ) as [number, number, number];
  let taken: RingSums | null = null;

  function sum(weights: Float64Array): RingSums {
    taken = null;
    floats(atWeights, rings * width).set(padded(weights, sectors, width, 0));
    const [block, right] = [floats(atBlock, fixed * fixed).fill(0), floats(atFixed, fixed).fill(0)];
    run.sumProducts(record, atBlock, atFixed);
    const origin = solveSymmetric(block, right, fixed, 0) ?? new Float64Array(fixed);
    floats(atChange, fixed).set(origin);
    run.sumResiduals(record, atChange);
    const [weight, residual, squares, rows, scores, products] = atSums.map(({ at, length }) =>
      floats(at, length).slice(),
    ) as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
    taken = { weights, origin, weight, residual, squares, rows, scores, products, block: block.slice() };
    return taken;
  }

  /** Puts sums back that were made before others. */
  function putBack(sums: RingSums): void {
    const { weights, weight, residual, squares, rows, scores, products } = sums;
    floats(atWeights, rings * width).set(padded(weights, sectors, width, 0));
    [weight, residual, squares, rows, scores, products].forEach((values, k) => {
      floats(atSums[k]!.at, values.length).set(values);
    });
    taken = sums;
  }

  return {
    sum,
    model: (disks, theta, model, light) => {
      const { atDisks, atTheta } = disksIn(disks, null, theta);
      run.modelOfCells(record, atDisks, disks.length, atTheta, atModel, atLight);
      unpadded(floats(atModel, rings * width), width, model, sectors);
      unpadded(floats(atLight, rings * width), width, light, sectors);
    },
    add: (sums, disks, begins, theta, matrix, right) => {
      if (taken !== sums) putBack(sums);
      const { atDisks, atTheta, atMatrix, atRight } = disksIn(disks, begins, theta);
      const p = right.length;
      const change = floats(atChange, fixed);
      for (let j = 0; j < fixed; j++) change[j] = theta[j]! - sums.origin[j]!;
      const [ownMatrix, ownRight] = [floats(atMatrix, p * p), floats(atRight, p)];
      ownMatrix.set(matrix);
      ownRight.set(right);
      const squares = run.addRings(record, atDisks, disks.length, p, atTheta, atChange, atMatrix, atRight);
      matrix.set(ownMatrix);
      right.set(ownRight);
      return squares;
    },
  };
}
