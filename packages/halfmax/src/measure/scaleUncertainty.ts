import { type Dispersion, pixelOf, wavelengthCovariance } from '../calibration/index.js';

/** Standard uncertainties that the wavelength scale alone gives to places and distances. */
export interface ScaleUncertainty {
  /** Of a wavelength, nm. */
  readonly place: (wavelengthNm: number) => number;
  /** Of the distance between two wavelengths: the fit is shared, so most of the error of the places cancels. */
  readonly distance: (fromNm: number, toNm: number) => number;
}

/**
 * The uncertainty of the scale at places and over distances.
 *
 * @param dispersion - the fitted scale
 * @param pixels - length of the detector
 * @returns functions that give standard uncertainties in nm
 * Source: JCGM 100:2008, 5.2 (correlated input quantities).
 */
export function scaleUncertainty(dispersion: Dispersion, pixels: number): ScaleUncertainty {
  const at = (nm: number): number => pixelOf(dispersion, nm, pixels) ?? (nm < 0 ? 0 : pixels - 1);
  return {
    place: (nm) => Math.sqrt(Math.max(0, wavelengthCovariance(dispersion, at(nm), at(nm)))),
    distance: (fromNm, toNm) => {
      const a = at(fromNm);
      const b = at(toNm);
      const variance =
        wavelengthCovariance(dispersion, a, a) +
        wavelengthCovariance(dispersion, b, b) -
        2 * wavelengthCovariance(dispersion, a, b);
      return Math.sqrt(Math.max(0, variance));
    },
  };
}
