import type { LocalWeights } from './localWeights.js';
import { localWeights } from './localWeights.js';

/** A stretch of the smoothed curve: places with the pixel weights of value and slope, joined by cubics. */
export interface SmoothedStretch {
  /** Ascending, nm. */
  readonly atNm: Float64Array;
  readonly weights: readonly LocalWeights[];
}

/**
 * Works out the weights of a stretch of the smoothed curve once, for any values on the same pixels.
 *
 * @param wavelengthNm - strictly increasing
 * @param trust - weight of each pixel
 * @param fromNm - first place
 * @param toNm - last place, at least
 * @param stepNm - distance of the places
 * @param halfWidthAt - half-width of the window at a place, nm
 * @param degree - of the local polynomial
 * @returns the stretch, places without enough pixels left out
 */
export function smoothedStretch(
  wavelengthNm: Float64Array,
  trust: Float64Array,
  fromNm: number,
  toNm: number,
  stepNm: number,
  halfWidthAt: (atNm: number) => number,
  degree: number,
): SmoothedStretch {
  const places: number[] = [];
  const weights: LocalWeights[] = [];
  const count = Math.max(1, Math.ceil((toNm - fromNm) / stepNm));
  for (let i = 0; i <= count; i++) {
    const at = fromNm + i * stepNm;
    const found = localWeights(wavelengthNm, trust, at, halfWidthAt(at), degree);
    if (found === null) continue;
    places.push(at);
    weights.push(found);
  }
  return { atNm: Float64Array.from(places), weights };
}

/** Smoothed value at place `k` of a stretch. */
export function stretchValue(stretch: SmoothedStretch, k: number, values: Float64Array): number {
  const { from, value } = stretch.weights[k]!;
  let sum = 0;
  for (let i = 0; i < value.length; i++) sum += value[i]! * values[from + i]!;
  return sum;
}

/** Smoothed slope at place `k` of a stretch, per nm. */
export function stretchSlope(stretch: SmoothedStretch, k: number, values: Float64Array): number {
  const { from, slope } = stretch.weights[k]!;
  let sum = 0;
  for (let i = 0; i < slope.length; i++) sum += slope[i]! * values[from + i]!;
  return sum;
}

/** One cubic between two places: values a, b and slopes times the distance da, db at t = 0 and 1. */
export function cubicValue(a: number, b: number, da: number, db: number, t: number): number {
  const s = 1 - t;
  return s * s * ((1 + 2 * t) * a + t * da) + t * t * ((3 - 2 * t) * b - s * db);
}

/** Derivative of {@link cubicValue} with respect to t. */
export function cubicSlope(a: number, b: number, da: number, db: number, t: number): number {
  return 6 * t * (1 - t) * (b - a) + (1 - t) * (1 - 3 * t) * da + t * (3 * t - 2) * db;
}

/** Second derivative of {@link cubicValue} with respect to t. */
export function cubicCurvature(a: number, b: number, da: number, db: number, t: number): number {
  return (6 - 12 * t) * (b - a) + (6 * t - 4) * da + (6 * t - 2) * db;
}

/**
 * Adds to `out` the pixel weights of the smoothed value between places `k` and `k + 1`.
 *
 * @param factor - what each weight is multiplied with
 */
export function addValueWeights(
  stretch: SmoothedStretch,
  k: number,
  t: number,
  factor: number,
  out: Float64Array,
): void {
  const left = stretch.weights[k]!;
  addScaled(left, factor * cubicValue(1, 0, 0, 0, t), 0, out);
  if (t === 0) return;
  const right = stretch.weights[k + 1]!;
  const step = stretch.atNm[k + 1]! - stretch.atNm[k]!;
  addScaled(left, 0, factor * step * cubicValue(0, 0, 1, 0, t), out);
  addScaled(right, factor * cubicValue(0, 1, 0, 0, t), factor * step * cubicValue(0, 0, 0, 1, t), out);
}

/** Adds to `out` the pixel weights of the smoothed slope (per nm) between places `k` and `k + 1`. */
export function addSlopeWeights(
  stretch: SmoothedStretch,
  k: number,
  t: number,
  factor: number,
  out: Float64Array,
): void {
  const step = stretch.atNm[k + 1]! - stretch.atNm[k]!;
  const scaled = factor / step;
  addScaled(stretch.weights[k]!, scaled * cubicSlope(1, 0, 0, 0, t), factor * cubicSlope(0, 0, 1, 0, t), out);
  addScaled(
    stretch.weights[k + 1]!,
    scaled * cubicSlope(0, 1, 0, 0, t),
    factor * cubicSlope(0, 0, 0, 1, t),
    out,
  );
}

/** Adds to `out` the pixel weights of the smoothed slope (per nm) at place `k` itself. */
export function addNodeSlope(stretch: SmoothedStretch, k: number, factor: number, out: Float64Array): void {
  addScaled(stretch.weights[k]!, 0, factor, out);
}

function addScaled(weights: LocalWeights, value: number, slope: number, out: Float64Array): void {
  const { from } = weights;
  for (let i = 0; i < weights.value.length; i++) {
    out[from + i]! += value * weights.value[i]! + slope * weights.slope[i]!;
  }
}
