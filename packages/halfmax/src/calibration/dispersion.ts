import { evaluatePolynomial } from '../numeric/index.js';
import type { Dispersion } from './types.js';

/**
 * Air wavelength at a pixel.
 *
 * @param dispersion - the fitted scale
 * @param pixel - from 0, fractions allowed
 * @returns air wavelength in nm
 */
export function wavelengthAt(dispersion: Dispersion, pixel: number): number {
  return evaluatePolynomial(dispersion.coefficients, (pixel - dispersion.pivotPixel) / dispersion.pixelScale);
}

/**
 * Nanometres per pixel at a pixel; negative where wavelength falls with pixel.
 *
 * @param dispersion - the fitted scale
 * @param pixel - from 0, fractions allowed
 * @returns nm per pixel
 */
export function dispersionAt(dispersion: Dispersion, pixel: number): number {
  const t = (pixel - dispersion.pivotPixel) / dispersion.pixelScale;
  let slope = 0;
  for (let k = dispersion.coefficients.length - 1; k >= 1; k--)
    slope = slope * t + k * dispersion.coefficients[k]!;
  return slope / dispersion.pixelScale;
}

/**
 * Air wavelength of every pixel centre.
 *
 * @param dispersion - the fitted scale
 * @param pixels - length of the detector
 * @returns wavelengths in nm, in the order of the pixels
 */
export function wavelengthsOf(dispersion: Dispersion, pixels: number): Float64Array {
  return Float64Array.from({ length: pixels }, (_, pixel) => wavelengthAt(dispersion, pixel));
}

/**
 * Covariance of the wavelengths of two pixels that share the fit: its root at equal pixels is the standard
 * uncertainty of the wavelength there.
 *
 * @param dispersion - the fitted scale
 * @param pixelA - from 0, fractions allowed
 * @param pixelB - from 0, fractions allowed
 * @returns covariance in nm^2
 * Source: law of propagation, JCGM 100:2008 clause 5.2.
 */
export function wavelengthCovariance(dispersion: Dispersion, pixelA: number, pixelB: number): number {
  const a = powers(dispersion, pixelA);
  const b = powers(dispersion, pixelB);
  let sum = 0;
  for (let j = 0; j < a.length; j++)
    for (let k = 0; k < b.length; k++) sum += a[j]! * dispersion.covariance[j]![k]! * b[k]!;
  return sum;
}

/**
 * The pixel at which the scale reaches a wavelength.
 *
 * @param dispersion - the fitted scale
 * @param wavelengthNm - air wavelength
 * @param pixels - length of the detector
 * @returns pixel from 0 with fraction, or null outside the detector
 */
export function pixelOf(dispersion: Dispersion, wavelengthNm: number, pixels: number): number | null {
  let low = -0.5;
  let high = pixels - 0.5;
  const rising = wavelengthAt(dispersion, high) > wavelengthAt(dispersion, low);
  const beyond = (pixel: number): boolean => wavelengthAt(dispersion, pixel) > wavelengthNm === rising;
  if (beyond(low) || !beyond(high)) return null;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (beyond(middle)) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

function powers(dispersion: Dispersion, pixel: number): number[] {
  const t = (pixel - dispersion.pivotPixel) / dispersion.pixelScale;
  return Array.from(dispersion.coefficients, (_, k) => t ** k);
}
