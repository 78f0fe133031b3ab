import { diskRow, isEvenRing, type StaticCells } from './diskCells.js';
import { bounded, disksFrom, type Layout } from './diskLayout.js';
import type { DiskStart } from './diskShape.js';
import { dot } from './leastSquares.js';
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
  const { size: p } = layout;
  const accumulate = normalEquations(table, cells, layout, weights, starts);
  let parameters = from;
  let here = accumulate(parameters);
  const isLinear = starts.every((start) => !start.radiusFree && !start.holeFree && !start.placeFree);
  let damping = isLinear ? 0 : 1e-4;
  const most = negligible === NEGLIGIBLE ? ROUNDS : FEW_ROUNDS;
  for (let round = 0; round < most; round++) {
    const step = solveSymmetric(here.matrix, here.right, p, damping);
    if (step === null) break;
    const whole = parameters.map((value, j) => value + step[j]!);
    const trial = bounded(whole.slice(), starts, layout.begins, table);
    // Of a step that must bring nothing, or the best there is, the sum need not be known.
    const isLast = isLinear || 2 * dot(step, here.right) < negligible;
    if (isLast && whole.every((value, j) => value === trial[j])) return trial;
    const there = accumulate(trial);
    if (there.sum <= here.sum) {
      const gain = here.sum - there.sum;
      parameters = trial;
      here = there;
      damping = damping / 5;
      if (gain < negligible) break;
    } else {
      damping = Math.max(1e-6, damping * 8);
      if (damping > 1e6) break;
    }
  }
  return parameters;
}

/** Normal equations at some parameters (lower half of the matrix), and the weighted sum of squares. */
interface NormalEquations {
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  readonly sum: number;
}

/**
 * Makes the function that sets up normal equations. It is where the time of a measurement goes: rings that no edge
 * reaches are seen as a whole, and of each cell only the parameters that it answers to are taken.
 */
function normalEquations(
  table: RingTable,
  cells: StaticCells,
  layout: Layout,
  weights: Float64Array,
  starts: readonly DiskStart[],
): (theta: Float64Array) => NormalEquations {
  const { fixed, size: p, begins } = layout;
  const { rows } = cells;
  const { counts, sectors } = table;
  const rings = table.radius.length;
  const fixedBlock = blockOf(weights, rows, fixed, p);
  const row = new Float64Array(p);
  const touched = new Int32Array(p);
  return (theta) => {
    const disks = disksFrom(theta, starts, begins);
    const matrix = fixedBlock.slice();
    const right = new Float64Array(p);
    let sum = 0;
    for (let i = 0; i < rings; i++) {
      let evenLight = 0;
      let many = 0;
      const even = disks.every((disk) => isEvenRing(table, cells, i, disk));
      if (even) {
        row.fill(0, fixed);
        evenLight = diskRow(table, cells, layout, cells.first[i]!, disks, row);
        for (let a = fixed; a < p; a++) if (row[a] !== 0) touched[many++] = a;
      }
      for (let k = i * sectors; k < (i + 1) * sectors; k++) {
        const weight = weights[k]!;
        if (!(weight > 0)) continue;
        const base = k * fixed;
        let residual = counts[k]!;
        if (even) residual -= evenLight;
        else {
          residual -= diskRow(table, cells, layout, k, disks, row);
          many = 0;
          for (let a = fixed; a < p; a++) if (row[a] !== 0) touched[many++] = a;
        }
        for (let j = 0; j < fixed; j++) residual -= theta[j]! * rows[base + j]!;
        const weighted = weight * residual;
        sum += weighted * residual;
        for (let j = 0; j < fixed; j++) right[j]! += weighted * rows[base + j]!;
        for (let m = 0; m < many; m++) {
          const a = touched[m]!;
          const value = row[a]!;
          right[a]! += weighted * value;
          const factor = weight * value;
          const at = a * p;
          for (let b = 0; b < fixed; b++) matrix[at + b]! += factor * rows[base + b]!;
          for (let l = 0; l <= m; l++) matrix[at + touched[l]!]! += factor * row[touched[l]!]!;
        }
      }
    }
    return { matrix, right, sum };
  };
}

/** The block of background and wings, which stays the same throughout. */
function blockOf(weights: Float64Array, rows: Float64Array, fixed: number, p: number): Float64Array {
  const block = new Float64Array(p * p);
  for (let k = 0; k < weights.length; k++) {
    const weight = weights[k]!;
    if (!(weight > 0)) continue;
    const base = k * fixed;
    for (let a = 0; a < fixed; a++) {
      const factor = weight * rows[base + a]!;
      for (let b = 0; b <= a; b++) block[a * p + b]! += factor * rows[base + b]!;
    }
  }
  return block;
}
