import { wavelengthAt } from './dispersion.js';
import type { Dispersion } from './types.js';

/** The instrument's own wavelength column against the lamps' scale: own minus ours, nm. */
export interface InstrumentScaleReport {
  readonly startNm: number;
  readonly middleNm: number;
  readonly endNm: number;
  readonly rmsNm: number;
  readonly largestNm: number;
}

/**
 * Compares the wavelength column that frames carry with the fitted scale. It is reported, never used.
 *
 * @param own - the instrument's wavelength of every pixel, nm
 * @param dispersion - the fitted scale
 * @returns differences own minus fitted at the first, middle and last pixel, their rms and the largest, nm
 * @throws {RangeError} fewer than 2 pixels
 */
export function compareInstrumentScale(
  own: ArrayLike<number>,
  dispersion: Dispersion,
): InstrumentScaleReport {
  const pixels = own.length;
  if (pixels < 2) throw new RangeError(`compareInstrumentScale requires at least 2 pixels, got ${pixels}`);
  const difference = (pixel: number): number => own[pixel]! - wavelengthAt(dispersion, pixel);
  let squares = 0;
  let largestNm = 0;
  for (let pixel = 0; pixel < pixels; pixel++) {
    const value = difference(pixel);
    squares += value * value;
    if (Math.abs(value) > Math.abs(largestNm)) largestNm = value;
  }
  return {
    startNm: difference(0),
    middleNm: difference(Math.floor(pixels / 2)),
    endNm: difference(pixels - 1),
    rmsNm: Math.sqrt(squares / pixels),
    largestNm,
  };
}
