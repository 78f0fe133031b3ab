import { modelOfTables } from '../../packages/halfmax/dist/measure/bandModel.js';

/** Corrected FWHM and its fellows of a band: what a worker makes its model from. */
export function corrected(tables) {
  const { statedRows, inputs, outputs } = modelOfTables(tables);
  return { model: statedRows(), inputs, outputs };
}
