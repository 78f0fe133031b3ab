import type { Model } from '../uncertainty/index.js';

/**
 * A model with its central results where a draw has none, so that a few such draws do not cost a whole budget: each
 * takes its share of the draws off a variance.
 *
 * @param model - writes NaN, or nothing, where it has no result
 * @param centre - its results with every input at its mean; an output that has none there stays without
 * @returns the same model, but for results that are missing
 */
export function filledModel(model: Model, centre: Float64Array): Model {
  return (x, out) => {
    model(x, out);
    for (let k = 0; k < out.length; k++) if (!Number.isFinite(out[k]!)) out[k] = centre[k]!;
  };
}
