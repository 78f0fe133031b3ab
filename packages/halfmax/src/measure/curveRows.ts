import { bandRows } from '../correction/index.js';
import { rowTrials } from '../uncertainty/index.js';
import { drawnShapes } from './drawnShapes.js';
import type { PlacedInputs } from './placedInputs.js';

/** Writes the corrected band of trials: for each wavelength a row. `x` has the rows of the model's argument. */
export type CurveRows = (x: Float64Array, wavelengthNm: Float64Array, out: Float64Array) => void;

/**
 * Makes what draws a corrected band as a curve, scale and level left as they are: those are shared by the whole curve.
 *
 * @param placed - tables with a correction
 * @returns the function
 */
export function curveRows(placed: PlacedInputs): CurveRows {
  const { tables, first, end, levels, atLevels, atSecond } = placed;
  const trials = rowTrials;
  const { secondWay } = tables.correction!;
  const pixels = new Float64Array((end - first) * trials);
  const drawShapes = drawnShapes(placed, pixels);
  const reader = bandRows(tables.shapes[0]!.shape);
  const found = new Float64Array(4 * trials);
  const [centre, place, wider, higher] = Array.from({ length: 4 }, () => new Float64Array(trials)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  let atNm = new Float64Array(0);
  let asLevelled = new Float64Array(0);
  return (x, wavelengthNm, out) => {
    if (asLevelled.length !== x.length) asLevelled = new Float64Array(x.length);
    asLevelled.set(x);
    asLevelled.fill(0, atLevels * trials, (atLevels + levels.inputs.length) * trials);
    levels.rows(asLevelled, atLevels, { first, end, trials }, pixels);
    reader.take(drawShapes(x));
    reader.read(found);
    for (let k = 0; k < trials; k++) {
      const [peak, blueNm, redNm] = [found[k]!, found[2 * trials + k]!, found[3 * trials + k]!];
      const second = x[atSecond * trials + k]!;
      centre[k] = (redNm + blueNm) / 2;
      wider[k] = 1 + (second * secondWay.fwhmNm) / (redNm - blueNm);
      higher[k] = 1 + (second * secondWay.peak) / peak;
      place[k] = centre[k]! + second * secondWay.centreNm;
    }
    if (atNm.length !== out.length) atNm = new Float64Array(out.length);
    for (let i = 0, at = 0; i < wavelengthNm.length; i++)
      for (let k = 0; k < trials; k++) atNm[at++] = centre[k]! + (wavelengthNm[i]! - place[k]!) / wider[k]!;
    reader.values(atNm, out);
    for (let at = 0; at < out.length; at++) out[at]! *= higher[at % trials]!;
  };
}
