import { firstAbove } from '../numeric/index.js';
import type { BandPlan } from './bandPlan.js';
import { edgeStretch, gapAt, inGap } from './bandWindows.js';
import { roughCrossing } from './roughCrossing.js';
import type { PlaceOnStretch } from './smoothedCrossing.js';
import { smoothedCrossing } from './smoothedCrossing.js';
import type { SmoothedStretch } from './smoothedStretch.js';
import { addValueWeights } from './smoothedStretch.js';
import type { Absent } from './types.js';

/** A crossing with the stretch of the smoothed curve that it lies on. */
export interface LevelPlace {
  readonly atNm: number;
  readonly stretch: SmoothedStretch;
  readonly place: PlaceOnStretch;
}

/**
 * The first crossing of a level on one side of a band, met on the way from its half-peak crossing.
 *
 * @param plan - the band
 * @param side - which edge
 * @param level - transmittance
 * @param halfNm - the half-peak crossing of that edge
 * @param outwards - true for a level below half of the peak
 * @param floor - transmittance below which nothing is known, or one per pixel
 * @returns the crossing, or why there is none
 */
export function levelCrossing(
  plan: BandPlan,
  side: 'blue' | 'red',
  level: number,
  halfNm: number,
  outwards: boolean,
  floor: number | ArrayLike<number>,
): LevelPlace | Absent {
  const { wavelengthNm, transmittance, standardUncertainty } = plan.curve;
  const shape = plan[side];
  const out = side === 'red' ? 1 : -1;
  const rough = roughPlace();
  const shown = level.toPrecision(2);
  if (rough === null) {
    return {
      absent: `the curve does not fall to a transmittance of ${shown} on the ${side} side before the scan or the next band`,
    };
  }
  const pixel = Math.min(Math.max(firstAbove(wavelengthNm, rough), 0), wavelengthNm.length - 1);
  const least = typeof floor === 'number' ? floor : floor[pixel]!;
  if (level < least) {
    return {
      absent: `a transmittance of ${shown} lies below what can be told from zero there, ${least.toPrecision(2)}`,
    };
  }
  const reach = Math.max(0.2 * shape.edgeNm, 3 * plan.pixelNm);
  for (const factor of [1, 2, 4, 8]) {
    const stretch = edgeStretch(plan, shape, rough, factor * reach);
    const towardsBand = outwards === (side === 'blue') ? 'last' : 'first';
    const place = smoothedCrossing(stretch, transmittance, level, side === 'blue', towardsBand);
    if (place === null) continue;
    const gap = gapAt(plan, place.atNm);
    if (gap !== undefined) return { absent: inGap(gap) };
    const u = valueUncertainty(stretch, place);
    if (level < 3 * u) {
      return {
        absent: `a transmittance of ${shown} lies below three standard uncertainties of the smoothed curve, ${(3 * u).toPrecision(2)}`,
      };
    }
    return { atNm: place.atNm, stretch, place };
  }
  return { absent: `the smoothed curve does not cross a transmittance of ${shown} on the ${side} side` };

  function roughPlace(): number | null {
    const { rough: values, fromIndex, toIndex, peakIndex } = plan;
    const above = firstAbove(wavelengthNm, halfNm);
    const inner = side === 'red' ? above - 1 : above;
    // inwards to the first pixel above the level, then out across it
    let i = Math.min(Math.max(inner, fromIndex), toIndex);
    while (i !== peakIndex && values[i]! < level) i -= out;
    return roughCrossing(wavelengthNm, values, i, out, level, out > 0 ? toIndex : fromIndex);
  }

  function valueUncertainty(stretch: SmoothedStretch, place: PlaceOnStretch): number {
    const gradient = new Float64Array(wavelengthNm.length);
    addValueWeights(stretch, place.k, place.t, 1, gradient);
    let variance = 0;
    for (let i = 0; i < gradient.length; i++) variance += (gradient[i]! * standardUncertainty[i]!) ** 2;
    return Math.sqrt(variance);
  }
}
