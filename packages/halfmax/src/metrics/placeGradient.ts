import type { LevelPlace } from './levelCrossing.js';
import {
  addValueWeights,
  cubicCurvature,
  cubicSlope,
  stretchSlope,
  stretchValue,
} from './smoothedStretch.js';
import type { Curve } from './types.js';

/** Slope of the smoothed curve at a place, per nm. */
export function slopeAt(curve: Curve, at: LevelPlace): number {
  const { a, b, da, db, step } = cellAt(curve, at);
  return cubicSlope(a, b, da, db, at.place.t) / step;
}

/** Second derivative of the smoothed curve at a place, per nm squared. */
export function curvatureAt(curve: Curve, at: LevelPlace): number {
  const { a, b, da, db, step } = cellAt(curve, at);
  return cubicCurvature(a, b, da, db, at.place.t) / (step * step);
}

/**
 * Adds how a crossing moves with each pixel: its level rises with the peak, its curve with the pixels.
 *
 * @param share - level over peak; 0 for a level that does not depend on the peak
 * @param factor - what each part is multiplied with
 */
export function addPlaceGradient(
  curve: Curve,
  at: LevelPlace,
  share: number,
  peakGradient: Float64Array,
  factor: number,
  out: Float64Array,
): void {
  const slope = slopeAt(curve, at);
  addValueWeights(at.stretch, at.place.k, at.place.t, -factor / slope, out);
  if (share === 0) return;
  const scale = (factor * share) / slope;
  for (let i = 0; i < out.length; i++) out[i]! += scale * peakGradient[i]!;
}

function cellAt(
  curve: Curve,
  at: LevelPlace,
): { a: number; b: number; da: number; db: number; step: number } {
  const { stretch, place } = at;
  const { k } = place;
  const step = stretch.atNm[k + 1]! - stretch.atNm[k]!;
  return {
    a: stretchValue(stretch, k, curve.transmittance),
    b: stretchValue(stretch, k + 1, curve.transmittance),
    da: stretchSlope(stretch, k, curve.transmittance) * step,
    db: stretchSlope(stretch, k + 1, curve.transmittance) * step,
    step,
  };
}
