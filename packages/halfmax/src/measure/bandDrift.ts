import type { BandRange } from '../metrics/index.js';
import type { ScaledCurve } from './curveOnScale.js';

/** The lamp's drift around the band, relative to the transmittance: common to its pixels, so it moves levels only. */
export function relativeDrift(scaled: ScaledCurve, range: BandRange): number {
  const { wavelengthNm, transmittance } = scaled.curve;
  let drift = 0;
  let light = 0;
  for (let i = 0; i < wavelengthNm.length; i++) {
    if (wavelengthNm[i]! < range.blueNm || wavelengthNm[i]! > range.redNm) continue;
    drift += scaled.driftUncertainty[i]!;
    light += Math.abs(transmittance[i]!);
  }
  return light === 0 ? 0 : drift / light;
}
