import type { FoundBand } from './bandKernel.js';
import type { BandEdge, BandMetrics } from './bandMetrics.js';
import type { BandPlan } from './bandPlan.js';
import { edgeWindow, topWindow } from './bandWindows.js';
import { absent, quantity } from './quantity.js';
import type { Quantity } from './types.js';

/** The highest single pixel of a band. */
export function maximumSample(plan: BandPlan): Quantity {
  const { transmittance, standardUncertainty } = plan.curve;
  let at = plan.peakIndex;
  for (let i = plan.fromIndex; i <= plan.toIndex; i++) {
    if (plan.trust[i]! > 0 && transmittance[i]! > transmittance[at]!) at = i;
  }
  return quantity(transmittance[at]!, standardUncertainty[at]!);
}

/** Wavelengths of the pixels of a band that were not trusted. */
export function leftOut(plan: BandPlan): number[] {
  const result: number[] = [];
  for (let i = plan.fromIndex; i <= plan.toIndex; i++)
    if (plan.trust[i] === 0) result.push(plan.curve.wavelengthNm[i]!);
  return result;
}

/** How the numbers of a band were found. */
export function methodOf(plan: BandPlan, found: FoundBand): BandMetrics['method'] {
  const noisy = found.peak.height !== found.peak.maximum;
  const windows = [edgeWindow(plan, plan.blue), edgeWindow(plan, plan.red)].map((w) => w.toFixed(2));
  return {
    peak: `maximum of local quadratic fits with tricube weights, windows up to ±${topWindow(plan).toFixed(2)} nm${
      noisy ? '; its upward bias from noise taken out by finding place and height with independent noise' : ''
    }`,
    crossings: `outermost crossings of half of the peak on local cubic fits with tricube weights, windows ±${windows[0]} nm (blue) and ±${windows[1]} nm (red)`,
    area: 'trapezoids over the pixels, two FWHM to both sides of the centre, a neighbouring band left out',
    maximumSample: 'highest single pixel, biased upwards by noise',
  };
}

/** A band without numbers, and why. */
export function unmeasured(why: string, plan?: BandPlan): BandMetrics {
  const none = absent(why);
  const edge: BandEdge = { width10To90Nm: none, slopeAtHalfPerNm: none };
  const method = 'not measured';
  return {
    fwhmNm: none,
    centreNm: none,
    peakNm: none,
    peakTransmittance: none,
    width10Nm: none,
    width1Nm: none,
    equivalentWidthNm: none,
    area: none,
    halfCrossingsNm: { blueNm: none, redNm: none },
    edges: { blue: edge, red: edge },
    definitions: {
      centroidNm: none,
      peakWavelengthNm: none,
      absoluteHalf: { centreNm: none, widthNm: none },
      meanTop: none,
      maximumSample: plan === undefined ? none : maximumSample(plan),
    },
    method: { peak: method, crossings: method, area: method, maximumSample: method },
    leftOutNm: plan === undefined ? [] : leftOut(plan),
  };
}
