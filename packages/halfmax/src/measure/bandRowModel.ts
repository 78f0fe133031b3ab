import { type RowModel, rowTrials } from '../uncertainty/index.js';
import { correctedRows } from './correctedRows.js';
import { measuredRows } from './measuredRows.js';
import type { PlacedInputs } from './placedInputs.js';

/**
 * The model of a band for many trials side by side: numbers as measured, then corrected ones where there are such.
 *
 * @param placed - tables, and where the inputs lie
 * @returns the model
 * @throws {Error} a machine without vectors in WebAssembly
 */
export function bandRowModel(placed: PlacedInputs): RowModel {
  return rowModel(placed, hasCorrection(placed) ? [measuredRows, correctedRows] : [measuredRows]);
}

/** The same without the numbers as measured where there are corrected ones. */
export function statedRowModel(placed: PlacedInputs): RowModel {
  return rowModel(placed, hasCorrection(placed) ? [correctedRows] : [measuredRows]);
}

function hasCorrection({ tables }: PlacedInputs): boolean {
  return tables.correction !== null && tables.shapes.length > 0;
}

function rowModel(
  placed: PlacedInputs,
  parts: readonly ((placed: PlacedInputs, pixels: Float64Array) => RowModel['run'])[],
): RowModel {
  const { first, end, levels, atLevels } = placed;
  const trials = rowTrials;
  const pixels = new Float64Array((end - first) * trials);
  const runs = parts.map((part) => part(placed, pixels));
  return {
    trials,
    run: (x, out) => {
      levels.rows(x, atLevels, { first, end, trials }, pixels);
      for (const run of runs) run(x, out);
    },
  };
}
