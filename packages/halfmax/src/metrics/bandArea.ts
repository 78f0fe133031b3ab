import type { BandPlan } from './bandPlan.js';
import { integralWeights } from './integralWeights.js';
import { absent } from './quantity.js';
import type { Absent } from './types.js';

/** Area under a band with the pixel weights that make it up. */
export interface Area {
  readonly value: number;
  readonly fromNm: number;
  readonly toNm: number;
  readonly gradient: Float64Array;
  readonly centroidNm: number;
  readonly centroidGradient: Float64Array;
}

/**
 * Area and centre of gravity of a band, two FWHM to both sides of its centre.
 *
 * @returns both with their pixel weights, or why there are none
 */
export function bandArea(plan: BandPlan, centreNm: number, fwhmNm: number): Area | Absent {
  const { curve, trust } = plan;
  const { wavelengthNm, transmittance } = curve;
  const fromNm = centreNm - 2 * fwhmNm;
  const toNm = centreNm + 2 * fwhmNm;
  if (fromNm < wavelengthNm[0]! || toNm > wavelengthNm[wavelengthNm.length - 1]!) {
    return absent(
      `the scan does not reach two FWHM to both sides, ${fromNm.toFixed(2)} to ${toNm.toFixed(2)} nm`,
    );
  }
  const gap = plan.gaps.find(([a, b]) => b - a > 0.25 * fwhmNm && a < toNm && b > fromNm);
  if (gap !== undefined) {
    return absent(`the curve has no pixels from ${gap[0].toFixed(2)} to ${gap[1].toFixed(2)} nm`);
  }
  // a neighbouring band is not part of the area
  const from = Math.max(fromNm, wavelengthNm[plan.fromIndex]!);
  const to = Math.min(toNm, wavelengthNm[plan.toIndex]!);
  const gradient = integralWeights(curve, trust, from, to);
  let value = 0;
  let moment = 0;
  gradient.forEach((weight, i) => {
    value += weight * transmittance[i]!;
    moment += weight * transmittance[i]! * (wavelengthNm[i]! - centreNm);
  });
  if (!(value > 0)) return absent('the area under the band is not above zero');
  const offset = moment / value;
  return {
    value,
    fromNm: from,
    toNm: to,
    gradient,
    centroidNm: centreNm + offset,
    centroidGradient: gradient.map((weight, i) => (weight * (wavelengthNm[i]! - centreNm - offset)) / value),
  };
}
