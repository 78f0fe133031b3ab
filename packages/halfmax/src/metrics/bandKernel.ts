import type { BandPlan } from './bandPlan.js';
import { edgeStretch, gapAt, inGap, searchReach } from './bandWindows.js';
import { packStretch } from './packedStretch.js';
import { BLUE_NM, PEAK_HEIGHT, quickPeak, RED_NM } from './quickPeak.js';
import type { PlaceOnStretch } from './smoothedCrossing.js';
import { crossingFinder } from './smoothedCrossing.js';
import type { SmoothedPeak } from './smoothedPeak.js';
import { peakFinder } from './smoothedPeak.js';
import type { SmoothedStretch } from './smoothedStretch.js';
import { topStretch } from './topStretch.js';
import type { Absent } from './types.js';

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
  /** The same for many draws: writes height and place of the peak and both crossings; false where there are none. */
  readonly quick: (transmittance: Float64Array, out: Float64Array) => boolean;
  /** Whether gaps leave enough of the band to be read. */
  readonly whole: boolean;
  /** First pixel that any weight falls on, and the one after the last. */
  readonly firstPixel: number;
  readonly endPixel: number;
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
  const pixels = curve.wavelengthNm.length;
  const crossBlue = crossingFinder(packStretch(blueEdge, pixels), true, 'first');
  const crossRed = crossingFinder(packStretch(redEdge, pixels), false, 'last');
  const stretches = [top, blueEdge, redEdge].flatMap((stretch) => stretch.weights);
  const firstPixel = Math.min(pixels, ...stretches.map(({ from }) => from));
  const endPixel = Math.max(0, ...stretches.map(({ from, value }) => from + value.length));
  const quickTop = top.atNm.length > 0 ? quickPeak(top, curve.standardUncertainty) : null;
  const whole = hidden <= 0.25 * plan.widthNm;
  return { top, blueEdge, redEdge, find, quick, whole, firstPixel, endPixel };

  function quick(transmittance: Float64Array, out: Float64Array): boolean {
    if (quickTop === null || !whole) return false;
    quickTop(transmittance, out);
    const level = out[PEAK_HEIGHT]! / 2;
    const blueNm = crossBlue.quick(transmittance, level);
    const redNm = crossRed.quick(transmittance, level);
    if (Number.isNaN(blueNm) || Number.isNaN(redNm)) return false;
    if (gapAt(plan, blueNm) !== undefined || gapAt(plan, redNm) !== undefined) return false;
    out[BLUE_NM] = blueNm;
    out[RED_NM] = redNm;
    return true;
  }

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
    const blueCrossing = crossBlue.find(transmittance, level);
    const redCrossing = crossRed.find(transmittance, level);
    if (blueCrossing === null || redCrossing === null) {
      const side = blueCrossing === null ? 'blue' : 'red';
      return { absent: `the smoothed ${side} edge does not cross half of the peak` };
    }
    const gap = gapAt(plan, blueCrossing.atNm) ?? gapAt(plan, redCrossing.atNm);
    if (gap !== undefined) return { absent: inGap(gap) };
    return { peak, blue: blueCrossing, red: redCrossing };
  }
}
