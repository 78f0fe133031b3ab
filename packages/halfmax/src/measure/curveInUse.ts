import type { StretchTrials } from '../beam/index.js';
import type { Curve } from '../metrics/index.js';
import type { BandCurve } from './bandCurve.js';

/** The curve by which a filter is judged in the telescope: the line spread taken out where that can be done. */
export interface CurveInUse extends Curve {
  readonly trials: readonly StretchTrials[];
}

/**
 * A measured curve with its corrected bands in their places.
 *
 * @param curve - as measured
 * @param bands - corrected bands on pixels of the curve
 * @returns the curve at the same wavelengths, with the trials of those bands
 */
export function curveInUse(curve: Curve, bands: readonly (BandCurve | null)[]): CurveInUse {
  const transmittance = Float64Array.from(curve.transmittance);
  const standardUncertainty = Float64Array.from(curve.standardUncertainty);
  const corrected = bands.filter((band) => band !== null);
  for (const band of corrected) {
    transmittance.set(band.transmittance, band.from);
    standardUncertainty.set(band.standardUncertainty, band.from);
  }
  const trials = corrected.map(({ from, values }) => ({ from, values }));
  return { wavelengthNm: curve.wavelengthNm, transmittance, standardUncertainty, trials };
}
