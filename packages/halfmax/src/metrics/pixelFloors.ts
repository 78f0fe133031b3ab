import type { Curve } from './types.js';

/** Per pixel: the floor given, or three standard uncertainties. */
export function pixelFloors(curve: Curve, floor: number | ArrayLike<number> | undefined): Float64Array {
  const n = curve.wavelengthNm.length;
  if (floor === undefined) return curve.standardUncertainty.map((u) => 3 * u);
  if (typeof floor === 'number') return new Float64Array(n).fill(floor);
  if (floor.length !== n)
    throw new RangeError(`opticalDensityIn requires a floor for ${n} pixels, got ${floor.length}`);
  return Float64Array.from(floor);
}

/** Half-way to both neighbours, cut at the range and at three times the narrower of the two ways. */
export function pixelWidth(wavelengthNm: Float64Array, i: number, fromNm: number, toNm: number): number {
  const at = wavelengthNm[i]!;
  const left = i > 0 ? (at - wavelengthNm[i - 1]!) / 2 : Infinity;
  const right = i + 1 < wavelengthNm.length ? (wavelengthNm[i + 1]! - at) / 2 : Infinity;
  const most = 3 * Math.min(left, right);
  return Math.max(Math.min(left, most, at - fromNm) + Math.min(right, most, toNm - at), 1e-9);
}
