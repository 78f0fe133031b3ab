import { type Dispersion, pixelOf } from '../calibration/index.js';
import type { Distribution } from '../uncertainty/index.js';

/** Shifts of the wavelength scale. */
export interface ScaleShifts {
  readonly distribution: Distribution;
  /** Count of numbers drawn. */
  readonly size: number;
  /** Shift at a wavelength, nm; x holds the numbers drawn from `from` on. */
  readonly at: (nm: number, x: Float64Array, from: number) => number;
}

/** Steps of a nanometre in which places are looked up: shifts change slowly, a tenth is near enough. */
const STEPS_PER_NM = 10;

/**
 * Shifts of the wavelength scale: the coefficients of the dispersion vary together by their covariance.
 *
 * @param dispersion - scale with its covariance
 * @param pixels - length of the detector
 * @param wavelengthNm - where shifts are asked for mostly, ascending
 * @returns the shifts
 */
export function scaleShifts(dispersion: Dispersion, pixels: number, wavelengthNm: Float64Array): ScaleShifts {
  const size = dispersion.coefficients.length;
  const placeOf = (key: number): number => {
    const pixel = pixelOf(dispersion, key / STEPS_PER_NM, pixels) ?? dispersion.pivotPixel;
    return (pixel - dispersion.pivotPixel) / dispersion.pixelScale;
  };
  const firstKey = Math.floor(wavelengthNm[0]! * STEPS_PER_NM);
  const lastKey = Math.ceil(wavelengthNm[wavelengthNm.length - 1]! * STEPS_PER_NM);
  const places = Float64Array.from({ length: lastKey - firstKey + 1 }, (_, i) => placeOf(firstKey + i));
  return {
    distribution: {
      kind: 'multivariateNormal',
      mean: new Float64Array(size),
      covariance: dispersion.covariance,
    },
    size,
    at: (nm, x, from) => {
      const key = Math.round(nm * STEPS_PER_NM);
      const t = key >= firstKey && key <= lastKey ? places[key - firstKey]! : placeOf(key);
      let shift = 0;
      for (let k = size - 1; k >= 0; k--) shift = shift * t + x[from + k]!;
      return shift;
    },
  };
}
