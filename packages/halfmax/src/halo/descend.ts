import type { StaticCells } from './diskCells.js';
import { bounded, type Layout } from './diskLayout.js';
import type { DiskStart } from './diskShape.js';
import { dot } from './leastSquares.js';
import { normalEquations } from './normalEquations.js';
import type { RingSums } from './ringSums.js';
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
  sums: RingSums,
  starts: readonly DiskStart[],
  from: Float64Array,
  negligible: number,
): Float64Array {
  const { size: p } = layout;
  const accumulate = normalEquations(cells, layout, sums, starts);
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
