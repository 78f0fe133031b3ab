import type { BandPlan } from './bandPlan.js';
import { edgeWindow, planBand } from './bandPlan.js';
import type { BandKernel, FoundBand } from './halfCrossings.js';
import { bandKernel } from './halfCrossings.js';
import { integralWeights } from './integralWeights.js';
import type { LevelPlace } from './levelCrossing.js';
import { addPlaceGradient, curvatureAt, levelCrossing, slopeAt } from './levelCrossing.js';
import { absent, isAbsent, quantity } from './quantity.js';
import { addSlopeWeights, addValueWeights } from './smoothedStretch.js';
import type { Absent, BandOptions, BandRange, Curve, Measured, Quantity } from './types.js';

/** What measuring a band needs to know beside the curve. */
export interface DescribeBandOptions extends BandOptions {
  /** Transmittance below which nothing is known: one number, or one per pixel. */
  readonly floor?: number | ArrayLike<number>;
}

/** One edge of a passband. */
export interface BandEdge {
  /** Way from 10 % to 90 % of the peak, nm. */
  readonly width10To90Nm: Quantity;
  /** Slope where the edge crosses half of the peak, per nm; negative on the red side. */
  readonly slopeAtHalfPerNm: Quantity;
}

/** The same band by other definitions that are in use. */
export interface OtherDefinitions {
  /** Centre of gravity of the area. */
  readonly centroidNm: Quantity;
  /** Place of the maximum of the smoothed curve; on a flat top this says little. */
  readonly peakWavelengthNm: Quantity;
  /** Crossings of a transmittance of 0.5, whatever the peak. */
  readonly absoluteHalf: { readonly centreNm: Quantity; readonly widthNm: Quantity };
  /** Mean between the outermost places above 80 % of the peak. */
  readonly meanTop: Quantity;
  /** The highest single pixel: biased upwards by noise. */
  readonly maximumSample: Quantity;
}

/** The numbers of one passband. */
export interface BandMetrics {
  readonly fwhmNm: Quantity;
  /** Midpoint of the outermost half-peak crossings. */
  readonly centreNm: Quantity;
  readonly peakNm: Quantity;
  readonly peakTransmittance: Quantity;
  /** Full width at 10 % of the peak. */
  readonly width10Nm: Quantity;
  /** Full width at 1 % of the peak. */
  readonly width1Nm: Quantity;
  /** Area under the curve between `area.fromNm` and `area.toNm`, as the width of a band of transmittance 1. */
  readonly equivalentWidthNm: Quantity;
  readonly area: { readonly fromNm: number; readonly toNm: number } | Absent;
  readonly halfCrossingsNm: { readonly blueNm: Quantity; readonly redNm: Quantity };
  readonly edges: { readonly blue: BandEdge; readonly red: BandEdge };
  readonly definitions: OtherDefinitions;
  /** How the numbers were found, one sentence each. */
  readonly method: {
    readonly peak: string;
    readonly crossings: string;
    readonly area: string;
    readonly maximumSample: string;
  };
  /** Single pixels that were left out since they stand alone, nm. */
  readonly leftOutNm: readonly number[];
}

/**
 * The numbers of a passband with their uncertainties from the noise of the pixels.
 *
 * Each number is, near the measured curve, a sum of weights times pixels; its uncertainty is the root of the
 * summed squares of weight times pixel uncertainty, so that what peak and crossings share is counted once.
 * Neither the wavelength scale nor the line spread is in it.
 *
 * @param curve - the curve
 * @param range - the band, from `findBands`
 * @param options - line spread and floor, where they are known
 * @returns the numbers, each with uncertainty or the reason why there is none
 * @throws {RangeError} a curve, range or floor that is not as described
 * Source: JCGM 100:2008, 5.1.2 for the propagation; definitions are common practice, no source.
 */
export function describeBand(curve: Curve, range: BandRange, options: DescribeBandOptions = {}): BandMetrics {
  const plan = planBand('describeBand', curve, range, options);
  const { floor } = options;
  if (typeof floor === 'object' && floor.length !== curve.wavelengthNm.length) {
    throw new RangeError(
      `describeBand requires a floor for ${curve.wavelengthNm.length} pixels, got ${floor.length}`,
    );
  }
  if (isAbsent(plan)) return nothing(curve, plan.absent);
  const kernel = bandKernel(plan);
  const found = kernel.find(curve.transmittance);
  if (isAbsent(found)) return nothing(curve, found.absent, plan);
  return measure(plan, kernel, found, floor ?? 0);
}

function measure(
  plan: BandPlan,
  kernel: BandKernel,
  found: FoundBand,
  floor: number | ArrayLike<number>,
): BandMetrics {
  const { curve } = plan;
  const { wavelengthNm, transmittance, standardUncertainty } = curve;
  const n = wavelengthNm.length;
  const peak = found.peak.height;
  const peakGradient = new Float64Array(n);
  addValueWeights(kernel.top, found.peak.place.k, found.peak.place.t, 1, peakGradient);

  const half = {
    blue: { stretch: kernel.blueEdge, place: found.blue, atNm: found.blue.atNm },
    red: { stretch: kernel.redEdge, place: found.red, atNm: found.red.atNm },
  };
  const at = (side: 'blue' | 'red', share: number): LevelPlace | Absent =>
    levelCrossing(plan, side, share * peak, half[side].atNm, share < 0.5, floor);
  const blue10 = at('blue', 0.1);
  const red10 = at('red', 0.1);
  const blue90 = at('blue', 0.9);
  const red90 = at('red', 0.9);
  const fwhm = found.red.atNm - found.blue.atNm;
  const area = areaOf(plan, (found.red.atNm + found.blue.atNm) / 2, fwhm);

  return {
    fwhmNm: between(half.blue, half.red, 0.5, -1, 1),
    centreNm: between(half.blue, half.red, 0.5, 0.5, 0.5),
    peakNm: peakPlace(),
    peakTransmittance: propagated(peak, peakGradient),
    width10Nm: between(blue10, red10, 0.1, -1, 1),
    width1Nm: between(at('blue', 0.01), at('red', 0.01), 0.01, -1, 1),
    equivalentWidthNm: isAbsent(area) ? area : propagated(area.value, area.gradient),
    area: isAbsent(area) ? area : { fromNm: area.fromNm, toNm: area.toNm },
    halfCrossingsNm: {
      blueNm: between(half.blue, half.blue, 0.5, 1, 0),
      redNm: between(half.red, half.red, 0.5, 1, 0),
    },
    edges: {
      blue: { width10To90Nm: between(blue10, blue90, [0.1, 0.9], -1, 1), slopeAtHalfPerNm: slope(half.blue) },
      red: { width10To90Nm: between(red10, red90, [0.1, 0.9], 1, -1), slopeAtHalfPerNm: slope(half.red) },
    },
    definitions: {
      centroidNm: isAbsent(area) ? area : area.centroid(propagated),
      peakWavelengthNm: peakPlace(),
      absoluteHalf: absoluteHalf(),
      meanTop: meanTop(),
      maximumSample: maximumSample(plan),
    },
    method: methodOf(plan, found),
    leftOutNm: leftOut(plan),
  };

  function propagated(value: number, gradient: Float64Array): Measured {
    let variance = 0;
    for (let i = 0; i < n; i++) variance += (gradient[i]! * standardUncertainty[i]!) ** 2;
    return quantity(value, Math.sqrt(variance));
  }

  /** a x first + b x second; the level of each is a share of the peak. */
  function between(
    first: LevelPlace | Absent,
    second: LevelPlace | Absent,
    share: number | readonly [number, number],
    a: number,
    b: number,
  ): Quantity {
    if (isAbsent(first)) return first;
    if (isAbsent(second)) return second;
    const [firstShare, secondShare] = typeof share === 'number' ? [share, share] : share;
    const gradient = new Float64Array(n);
    addPlaceGradient(curve, first, firstShare, peakGradient, a, gradient);
    if (b !== 0) addPlaceGradient(curve, second, secondShare, peakGradient, b, gradient);
    return propagated(a * first.atNm + b * second.atNm, gradient);
  }

  function slope(edge: LevelPlace): Quantity {
    const gradient = new Float64Array(n);
    addSlopeWeights(edge.stretch, edge.place.k, edge.place.t, 1, gradient);
    addPlaceGradient(curve, edge, 0.5, peakGradient, curvatureAt(curve, edge), gradient);
    return propagated(slopeAt(curve, edge), gradient);
  }

  function peakPlace(): Quantity {
    const { k, t } = found.peak.place;
    if (t === 0)
      return absent(
        'the smoothed curve is highest at the border of the top: the place of the peak is not defined',
      );
    const top: LevelPlace = { stretch: kernel.top, place: found.peak.place, atNm: found.peak.place.atNm };
    const curvature = curvatureAt(curve, top);
    const gradient = new Float64Array(n);
    addSlopeWeights(kernel.top, k, t, -1 / curvature, gradient);
    const result = propagated(top.atNm, gradient);
    // a flat top: the place cannot be better known than the width of the top, nor worse
    const widest = fwhm / Math.sqrt(12);
    return result.standardUncertainty > widest ? quantity(result.value, widest) : result;
  }

  function absoluteHalf(): OtherDefinitions['absoluteHalf'] {
    const why = absent('the peak does not stand above a transmittance of 0.5');
    const u = propagated(peak, peakGradient).standardUncertainty;
    if (!(peak - 3 * u > 0.5)) return { centreNm: why, widthNm: why };
    const outwards = peak > 1;
    const blue = levelCrossing(plan, 'blue', 0.5, found.blue.atNm, outwards, floor);
    const red = levelCrossing(plan, 'red', 0.5, found.red.atNm, outwards, floor);
    return { centreNm: between(blue, red, 0, 0.5, 0.5), widthNm: between(blue, red, 0, -1, 1) };
  }

  function meanTop(): Quantity {
    const blue = at('blue', 0.8);
    const red = at('red', 0.8);
    if (isAbsent(blue)) return blue;
    if (isAbsent(red)) return red;
    const width = red.atNm - blue.atNm;
    const gradient = integralWeights(curve, plan.trust, blue.atNm, red.atNm);
    let sum = 0;
    for (let i = 0; i < n; i++) {
      gradient[i]! /= width;
      sum += gradient[i]! * transmittance[i]!;
    }
    addPlaceGradient(curve, red, 0.8, peakGradient, (0.8 * peak - sum) / width, gradient);
    addPlaceGradient(curve, blue, 0.8, peakGradient, -(0.8 * peak - sum) / width, gradient);
    return propagated(sum, gradient);
  }
}

interface Area {
  readonly value: number;
  readonly fromNm: number;
  readonly toNm: number;
  readonly gradient: Float64Array;
  readonly centroid: (propagated: (value: number, gradient: Float64Array) => Quantity) => Quantity;
}

function areaOf(plan: BandPlan, centreNm: number, fwhmNm: number): Area | Absent {
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
  const offset = moment / value;
  return {
    value,
    fromNm: from,
    toNm: to,
    gradient,
    centroid: (propagated) =>
      propagated(
        centreNm + offset,
        gradient.map((weight, i) => (weight * (wavelengthNm[i]! - centreNm - offset)) / value),
      ),
  };
}

function maximumSample(plan: BandPlan): Quantity {
  const { transmittance, standardUncertainty } = plan.curve;
  let at = plan.peakIndex;
  for (let i = plan.fromIndex; i <= plan.toIndex; i++) {
    if (plan.trust[i]! > 0 && transmittance[i]! > transmittance[at]!) at = i;
  }
  return quantity(transmittance[at]!, standardUncertainty[at]!);
}

function leftOut(plan: BandPlan): number[] {
  const result: number[] = [];
  for (let i = plan.fromIndex; i <= plan.toIndex; i++)
    if (plan.trust[i] === 0) result.push(plan.curve.wavelengthNm[i]!);
  return result;
}

function methodOf(plan: BandPlan, found: FoundBand): BandMetrics['method'] {
  const noisy = found.peak.height !== found.peak.maximum;
  const windows = [edgeWindow(plan, plan.blue), edgeWindow(plan, plan.red)].map((w) => w.toFixed(2));
  return {
    peak: `maximum of local quadratic fits with tricube weights, windows up to ±${Math.max(0.2 * plan.widthNm, plan.leastWindowNm).toFixed(2)} nm${
      noisy ? '; its upward bias from noise taken out by finding place and height with independent noise' : ''
    }`,
    crossings: `outermost crossings of half of the peak on local cubic fits with tricube weights, windows ±${windows[0]} nm (blue) and ±${windows[1]} nm (red)`,
    area: 'trapezoids over the pixels, two FWHM to both sides of the centre, a neighbouring band left out',
    maximumSample: 'highest single pixel, biased upwards by noise',
  };
}

function nothing(curve: Curve, why: string, plan?: BandPlan): BandMetrics {
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
    leftOutNm: plan === undefined || curve.wavelengthNm.length === 0 ? [] : leftOut(plan),
  };
}
