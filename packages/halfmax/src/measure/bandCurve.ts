import type { StretchTrials } from '../beam/index.js';
import { type BandCorrection, bandValue } from '../correction/index.js';
import { splitStream } from '../numeric/index.js';
import { compileInputs } from '../uncertainty/index.js';
import type { BandModel } from './bandModel.js';

/** A band with the line spread taken out, on the pixels it was fitted to, and trials of it. */
export interface BandCurve extends StretchTrials {
  readonly wavelengthNm: Float64Array;
  readonly transmittance: Float64Array;
  /** Of each point alone; neighbours share nearly all of it. */
  readonly standardUncertainty: Float64Array;
}

/** Stream of these trials, far from those of the blocks and the budget. */
const STREAM = 2000;

/**
 * Draws a corrected band as a curve.
 *
 * @param band - the band's model
 * @param correction - the corrected band
 * @param options - seed of the band, and how many trials
 * @returns the curve as reported, and trials whose mean it is; null where the model has no corrected band
 */
export function bandCurve(
  band: BandModel,
  correction: BandCorrection,
  { seed, draws }: { readonly seed: number; readonly draws: number },
): BandCurve | null {
  const { shape, inputs } = band;
  if (shape === null) return null;
  const { wavelengthNm } = correction.data;
  const transmittance = wavelengthNm.map((nm) =>
    correction.fits.reduce((sum, fit) => sum + fit.share * bandValue(fit.shape, fit.parameters, nm), 0),
  );
  const stream = splitStream(seed, STREAM);
  const compiled = compileInputs(inputs);
  const x = new Float64Array(compiled.size);
  const values: Float64Array[] = [];
  for (let trial = 0; trial < draws; trial++) {
    compiled.draw(stream, x);
    const out = new Float64Array(wavelengthNm.length);
    shape(x, wavelengthNm, out);
    if (out.every((value) => Math.abs(value) < Infinity)) values.push(out);
  }
  if (values.length < 0.98 * draws) return null;
  const standardUncertainty = wavelengthNm.map((_, i) => {
    const mean = values.reduce((sum, value) => sum + value[i]!, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value[i]! - mean) ** 2, 0);
    // The mean of the trials is placed on the curve as reported, as that of every number's draws is.
    for (const value of values) value[i]! += transmittance[i]! - mean;
    return Math.sqrt(squares / (values.length - 1));
  });
  return { from: correction.first, values, wavelengthNm, transmittance, standardUncertainty };
}
