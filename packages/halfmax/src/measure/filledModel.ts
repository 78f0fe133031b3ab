import type { RowModel } from '../uncertainty/index.js';

/**
 * A model with its central results where a draw has none, so that a few such draws do not cost a whole budget: each
 * takes its share of the draws off a variance.
 *
 * @param model - writes NaN, or nothing, where it has no result
 * @param centre - its results with every input at its mean; an output that has none there stays without
 * @returns the same model, but for results that are missing
 */
export function filledModel({ trials, run }: RowModel, centre: Float64Array): RowModel {
  return {
    trials,
    run: (x, out) => {
      run(x, out);
      for (let at = 0; at < out.length; at++)
        if (!Number.isFinite(out[at]!)) out[at] = centre[Math.floor(at / trials)]!;
    },
  };
}
