import type { Curve } from './types.js';

/**
 * Pixel weights of the integral over a stretch by trapezoids: the integral is the sum of weights times pixels.
 * At both ends the curve is cut on its straight line; pixels that are not trusted are stepped over.
 *
 * @param curve - the curve
 * @param trust - 0 for a pixel that is to be left out
 * @param fromNm - lower end, inside the curve
 * @param toNm - upper end, inside the curve
 * @returns one weight per pixel, nm
 */
export function integralWeights(
  curve: Curve,
  trust: Float64Array,
  fromNm: number,
  toNm: number,
): Float64Array {
  const { wavelengthNm } = curve;
  const weights = new Float64Array(wavelengthNm.length);
  let left = -1;
  for (let i = 0; i < wavelengthNm.length; i++) {
    if (!(trust[i]! > 0)) continue;
    if (left >= 0) addCell(left, i);
    left = i;
  }
  return weights;

  function addCell(a: number, b: number): void {
    const [start, end] = [wavelengthNm[a]!, wavelengthNm[b]!];
    const low = Math.max(start, fromNm);
    const high = Math.min(end, toNm);
    if (!(high > low)) return;
    const middle = ((low + high) / 2 - start) / (end - start);
    weights[a]! += (high - low) * (1 - middle);
    weights[b]! += (high - low) * middle;
  }
}
