import type { BandPlan } from './bandPlan.js';
import { edgeStretch, gapAt, planBand, searchReach } from './bandPlan.js';
import { isAbsent } from './quantity.js';
import type { PlaceOnStretch } from './smoothedCrossing.js';
import { smoothedCrossing } from './smoothedCrossing.js';
import type { SmoothedPeak } from './smoothedPeak.js';
import { peakFinder } from './smoothedPeak.js';
import type { SmoothedStretch } from './smoothedStretch.js';
import { topStretch } from './topStretch.js';
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

/** Peak and crossings with their places on the smoothed curve, for the propagation of uncertainty. */
export interface FoundBand {
  readonly peak: SmoothedPeak;
  readonly blue: PlaceOnStretch;
  readonly red: PlaceOnStretch;
}

/** The stretches of one band and the function that reads them. */
export interface BandKernel {
  readonly top: SmoothedStretch;
  readonly blueEdge: SmoothedStretch;
  readonly redEdge: SmoothedStretch;
  readonly find: (transmittance: Float64Array) => FoundBand | Absent;
}

/** Works out the weights of a band once. */
export function bandKernel(plan: BandPlan): BandKernel {
  const { blue, red, curve } = plan;
  const top = topStretch(plan);
  const blueEdge = edgeStretch(plan, blue, blue.halfNm, searchReach(plan, blue));
  const redEdge = edgeStretch(plan, red, red.halfNm, searchReach(plan, red));
  const hidden = plan.gaps.reduce((sum, [from, to]) => {
    return sum + Math.max(0, Math.min(to, red.halfNm) - Math.max(from, blue.halfNm));
  }, 0);
  const findPeak = top.atNm.length > 0 ? peakFinder(top, curve.standardUncertainty) : null;
  return { top, blueEdge, redEdge, find };

  function find(transmittance: Float64Array): FoundBand | Absent {
    if (transmittance.length !== curve.wavelengthNm.length) {
      throw new RangeError(
        `halfCrossings requires ${curve.wavelengthNm.length} pixels, got ${transmittance.length}`,
      );
    }
    if (findPeak === null || hidden > 0.25 * plan.widthNm) {
      return { absent: `pixels without a number hide ${hidden.toFixed(2)} nm of the band` };
    }
    const peak = findPeak(transmittance);
    const level = peak.height / 2;
    const blueCrossing = smoothedCrossing(blueEdge, transmittance, level, true, 'first');
    const redCrossing = smoothedCrossing(redEdge, transmittance, level, false, 'last');
    if (blueCrossing === null || redCrossing === null) {
      const side = blueCrossing === null ? 'blue' : 'red';
      return { absent: `the smoothed ${side} edge does not cross half of the peak` };
    }
    const gap = gapAt(plan, blueCrossing.atNm) ?? gapAt(plan, redCrossing.atNm);
    if (gap !== undefined) return { absent: inGap(gap) };
    return { peak, blue: blueCrossing, red: redCrossing };
  }
}

/** Why a place in a gap has no number. */
export function inGap(gap: readonly [number, number]): string {
  return `it lies where the curve has no pixels, ${gap[0].toFixed(2)} to ${gap[1].toFixed(2)} nm`;
}
