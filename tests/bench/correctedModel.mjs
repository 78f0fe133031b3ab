import { modelOfTables } from '../../packages/halfmax/dist/measure/bandModel.js';

/** Corrected FWHM and its fellows of a band: what a worker makes its model from. */
export function corrected(tables) {
  const { stated, inputs, outputs } = modelOfTables(tables);
  return { model: stated, inputs, outputs };
}
