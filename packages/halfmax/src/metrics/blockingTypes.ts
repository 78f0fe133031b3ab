import type { Absent } from './types.js';

/** What limits a statement on blocking. */
export interface BlockingOptions {
  /** Smallest transmittance distinguishable from zero: one number, or one per pixel. @default 3 standard uncertainties */
  readonly floor?: number | ArrayLike<number>;
  /**
   * What of the floor all pixels share: standard uncertainty per pixel with its sign, transmittance, such as a dark
   * whose level is not known. It stays in a mean over pixels, where noise averages out. @default none
   */
  readonly shared?: ArrayLike<number>;
  /** Relative standard uncertainty of the level of all pixels together: lamp, detector. @default 0 */
  readonly levelUncertainty?: number;
  /**
   * The instrument's own limit: light of other wavelengths that reaches a pixel, over the open beam. It is assumed,
   * not measured. Typical of a single monochromator: 0.1 %. @default 1e-3
   */
  readonly strayLight?: number;
  /** A pixel whose own limit lies above this transmittance has seen no blocking. @default 0.1 */
  readonly blindAbove?: number;
}

/** An optical density, a lower limit of it, or why there is neither. */
export type OpticalDensity =
  | { readonly value: number; readonly standardUncertainty: number }
  | { readonly atLeast: number; readonly why: string }
  | Absent;

/** An optical density with the place where it was found. */
export type PlacedOpticalDensity = OpticalDensity & { readonly atNm?: number };

/** Blocking over a range of wavelengths. */
export interface Blocking {
  readonly fromNm: number;
  readonly toNm: number;
  /** First and last wavelength where blocking was seen; null where it was seen nowhere. */
  readonly seenFromNm: number | null;
  readonly seenToNm: number | null;
  /** Share of the range, 0 to 1, that pixels with sight of blocking cover. */
  readonly seenShare: number;
  /** Optical density of the mean transmittance over what was seen. */
  readonly meanOpticalDensity: OpticalDensity;
  /** The lowest optical density of any three neighbouring pixels. */
  readonly worstOpticalDensity: PlacedOpticalDensity;
  /** The smallest mean transmittance that could be told from zero. */
  readonly limit: { readonly transmittance: number; readonly why: string };
}
