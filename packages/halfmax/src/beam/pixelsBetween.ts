import type { Curve } from '../metrics/index.js';

/**
 * The pixels of a curve that a stretch needs: those inside it and the next one on either side.
 *
 * @param curve - the curve
 * @param fromNm - start of the stretch
 * @param toNm - its end
 * @returns a shorter curve, as far as the scan reaches
 */
export function pixelsBetween(curve: Curve, fromNm: number, toNm: number): Curve {
  const scan = curve.wavelengthNm;
  const first = Math.max(0, firstAtLeast(scan, fromNm) - 1);
  const end = firstAtLeast(scan, toNm) + 1;
  return {
    wavelengthNm: scan.slice(first, end),
    transmittance: curve.transmittance.slice(first, end),
    standardUncertainty: curve.standardUncertainty.slice(first, end),
  };
}

/** First pixel at or above a wavelength, or the last pixel. */
function firstAtLeast(scan: Float64Array, wavelengthNm: number): number {
  let low = 0;
  let high = scan.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (scan[middle]! >= wavelengthNm) high = middle;
    else low = middle + 1;
  }
  return low;
}
