import { diskRow, type StaticCells } from './diskCells.js';
import { bounded, disksFrom, type Layout } from './diskLayout.js';
import type { DiskStart } from './diskShape.js';
import type { RingTable } from './ringTable.js';
import { solveSymmetric } from './solveSymmetric.js';

const ROUNDS = 40;
/** Where fits are only compared: one that is not near by then began in the wrong place. */
const FEW_ROUNDS = 10;
/** A fall of the weighted sum of squares that nobody would see. */
export const NEGLIGIBLE = 3e-3;
/** The same where fits are only compared. */
export const COARSE = 0.05;

/** Damped Gauss-Newton steps with given weights, until the sum of squares falls no more. */
export function descend(
  table: RingTable,
  cells: StaticCells,
  layout: Layout,
  weights: Float64Array,
  starts: readonly DiskStart[],
  from: Float64Array,
  negligible: number,
): Float64Array {
  const { fixed, size: p } = layout;
  const active = Int32Array.from(weights.keys()).filter((k) => weights[k]! > 0);
  const { rows } = cells;
  const { counts } = table;
  // The block of background and wings stays the same throughout.
  const fixedBlock = new Float64Array(p * p);
  for (const k of active) {
    const weight = weights[k]!;
    const base = k * fixed;
    for (let a = 0; a < fixed; a++) {
      const factor = weight * rows[base + a]!;
      for (let b = 0; b <= a; b++) fixedBlock[a * p + b]! += factor * rows[base + b]!;
    }
  }
  const row = new Float64Array(p);
  const accumulate = (theta: Float64Array): { matrix: Float64Array; right: Float64Array; sum: number } => {
    const disks = disksFrom(theta, starts, layout.begins);
    const matrix = fixedBlock.slice();
    const right = new Float64Array(p);
    let sum = 0;
    for (let index = 0; index < active.length; index++) {
      const k = active[index]!;
      const weight = weights[k]!;
      const base = k * fixed;
      let residual = counts[k]!;
      if (disks.length > 0) residual -= diskRow(table, cells, layout, k, disks, row);
      for (let j = 0; j < fixed; j++) residual -= theta[j]! * rows[base + j]!;
      const weighted = weight * residual;
      sum += weighted * residual;
      for (let j = 0; j < fixed; j++) right[j]! += weighted * rows[base + j]!;
      for (let a = fixed; a < p; a++) {
        const value = row[a]!;
        if (value === 0) continue; // a disk that does not reach here
        right[a]! += weighted * value;
        const factor = weight * value;
        const at = a * p;
        for (let b = 0; b < fixed; b++) matrix[at + b]! += factor * rows[base + b]!;
        for (let b = fixed; b <= a; b++) matrix[at + b]! += factor * row[b]!;
      }
    }
    return { matrix, right, sum };
  };
  let parameters = from;
  let here = accumulate(parameters);
  const isLinear = starts.every((start) => !start.radiusFree && !start.holeFree && !start.placeFree);
  let damping = isLinear ? 0 : 1e-4;
  const most = negligible === NEGLIGIBLE ? ROUNDS : FEW_ROUNDS;
  for (let round = 0; round < most; round++) {
    const step = solveSymmetric(here.matrix, here.right, p, damping);
    if (step === null) break;
    const trial = bounded(
      parameters.map((value, j) => value + step[j]!),
      starts,
      layout.begins,
      table,
    );
    const there = accumulate(trial);
    if (there.sum <= here.sum) {
      const gain = here.sum - there.sum;
      parameters = trial;
      here = there;
      damping = damping / 5;
      if (gain < negligible || isLinear) break;
    } else {
      damping = Math.max(1e-6, damping * 8);
      if (damping > 1e6) break;
    }
  }
  return parameters;
}
