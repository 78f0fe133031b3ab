import { bandKernel } from './bandKernel.js';
import { planBand } from './bandPlan.js';
import { isAbsent } from './quantity.js';
import type { Absent, BandOptions, BandRange, Curve } from './types.js';

/** Peak and half-peak crossings of one band. */
export interface HalfCrossings {
  readonly blueNm: number;
  readonly redNm: number;
  readonly fwhmNm: number;
  readonly centreNm: number;
  readonly peakNm: number;
  readonly peakTransmittance: number;
  /** Half of the peak: the level of the crossings. */
  readonly level: number;
}

/**
 * Peak and outermost half-peak crossings of a band, without uncertainties.
 *
 * @param curve - the curve
 * @param range - the band, from `findBands`
 * @param options - the line spread, where it is known
 * @returns the crossings, or why there are none
 * @throws {RangeError} a curve or range that is not as described
 */
export function halfCrossings(
  curve: Curve,
  range: BandRange,
  options: BandOptions = {},
): HalfCrossings | Absent {
  return halfCrossingsOf(curve, range, options)(curve.transmittance);
}

/**
 * Makes a function that finds peak and half-peak crossings of one band for any transmittances on the same
 * pixels: the windows and all weights of the local fits are worked out once, from the curve given here.
 *
 * @param curve - wavelengths, uncertainties and the transmittances that settle the windows
 * @param range - the band, from `findBands`
 * @param options - the line spread, where it is known
 * @returns a function of transmittances (same length) that gives the crossings, or why there are none
 * @throws {RangeError} a curve or range that is not as described
 * Cost: some milliseconds once, then 10 to 50 microseconds a call.
 */
export function halfCrossingsOf(
  curve: Curve,
  range: BandRange,
  options: BandOptions = {},
): (transmittance: Float64Array) => HalfCrossings | Absent {
  const plan = planBand('halfCrossings', curve, range, options);
  if (isAbsent(plan)) return () => plan;
  const kernel = bandKernel(plan);
  return (transmittance) => {
    const found = kernel.find(transmittance);
    if (isAbsent(found)) return found;
    const { blue, red, peak } = found;
    return {
      blueNm: blue.atNm,
      redNm: red.atNm,
      fwhmNm: red.atNm - blue.atNm,
      centreNm: (red.atNm + blue.atNm) / 2,
      peakNm: peak.place.atNm,
      peakTransmittance: peak.height,
      level: peak.height / 2,
    };
  };
}
