import type { BeamRays } from './types.js';

/**
 * Reads the transmittance of many trial curves at one wavelength in a beam: the same pixels, other values.
 *
 * @param wavelengthNm - pixels of the curve, strictly increasing, 2 or more
 * @returns read(values, atNm, rays, index): mean over the rays, straight between pixels; NaN where a ray needs light
 *   from beyond the pixels
 */
export function rayReader(
  wavelengthNm: Float64Array,
): (values: ArrayLike<number>, atNm: number, rays: BeamRays, effectiveIndex: number) => number {
  const n = wavelengthNm.length;
  const start = wavelengthNm[0]!;
  const end = wavelengthNm[n - 1]!;
  // For each of 4 n equal steps the pixel at or before it, so that a reading need not search.
  const cells = 4 * n;
  const perNm = cells / (end - start);
  const pixelOf = new Int32Array(cells + 1);
  let pixel = 0;
  for (let c = 0; c <= cells; c++) {
    while (pixel < n - 2 && wavelengthNm[pixel + 1]! <= start + c / perNm) pixel++;
    pixelOf[c] = pixel;
  }
  return (values, atNm, { sineSquared, weight }, effectiveIndex) => {
    const perSquare = 1 / (effectiveIndex * effectiveIndex);
    let sum = 0;
    for (let j = 0; j < weight.length; j++) {
      const at = atNm / Math.sqrt(1 - sineSquared[j]! * perSquare);
      if (!(at >= start && at <= end)) return Number.NaN;
      let k = pixelOf[Math.floor((at - start) * perNm)]!;
      while (k > 0 && wavelengthNm[k]! > at) k--;
      while (k < n - 2 && wavelengthNm[k + 1]! < at) k++;
      const part = (at - wavelengthNm[k]!) / (wavelengthNm[k + 1]! - wavelengthNm[k]!);
      sum += weight[j]! * (values[k]! + part * (values[k + 1]! - values[k]!));
    }
    return sum;
  };
}
