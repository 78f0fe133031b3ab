import { bandArea } from './bandArea.js';
import type { BandKernel, FoundBand } from './bandKernel.js';
import type { BandMetrics, OtherDefinitions } from './bandMetrics.js';
import { leftOut, maximumSample, methodOf } from './bandNotes.js';
import type { BandPlan } from './bandPlan.js';
import { integralWeights } from './integralWeights.js';
import type { LevelPlace } from './levelCrossing.js';
import { levelCrossing } from './levelCrossing.js';
import { peakInterval } from './peakInterval.js';
import { addPlaceGradient, curvatureAt, slopeAt } from './placeGradient.js';
import { absent, isAbsent, normal95, quantity } from './quantity.js';
import { addNodeSlope, addSlopeWeights, addValueWeights, stretchSlope } from './smoothedStretch.js';
import type { Absent, Measured, Quantity } from './types.js';

/** The numbers of a band whose peak and half-peak crossings are found. */
export function measureBand(
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
  const area = bandArea(plan, (found.red.atNm + found.blue.atNm) / 2, fwhm);

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
      centroidNm: isAbsent(area) ? area : propagated(area.centroidNm, area.centroidGradient),
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

  /**
   * On a flat or rippled top noise moves the place far, from one maximum to another: the interval holds them all, and
   * the uncertainty is the largest of what a single maximum, the noise patterns of the peak and the interval give.
   */
  function peakPlace(): Measured {
    const { k, t, atNm } = found.peak.place;
    const { top } = kernel;
    const { pixelNm } = plan;
    const interval95 = peakInterval(top, transmittance, standardUncertainty, found.peak, pixelNm);
    const least = Math.max(found.peak.placeSpreadNm, (interval95[1] - interval95[0]) / (2 * normal95));
    const reach = Math.max(1, Math.round(plan.leastWindowNm / pixelNm));
    const [low, high] = [Math.max(k - reach, 0), Math.min(k + reach, top.atNm.length - 1)];
    const bend = stretchSlope(top, high, transmittance) - stretchSlope(top, low, transmittance);
    if (!(bend < 0)) return { value: atNm, standardUncertainty: least, interval95 };
    const gradient = new Float64Array(n);
    const scale = -(top.atNm[high]! - top.atNm[low]!) / bend;
    if (t === 0) addNodeSlope(top, k, scale, gradient);
    else addSlopeWeights(top, k, t, scale, gradient);
    const linear = Math.min(propagated(atNm, gradient).standardUncertainty, fwhm / Math.sqrt(12));
    return { value: atNm, standardUncertainty: Math.max(linear, least), interval95 };
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
