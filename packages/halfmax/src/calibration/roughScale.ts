import type { LampLine } from '../reference/index.js';
import type { LampLines } from './types.js';

/** A lamp's found lines and the lines that its label allows. */
export interface LabelledLamp {
  readonly lamp: LampLines;
  readonly known: readonly LampLine[];
}

/** A rough scale, good to a fraction of the line spread. */
export interface RoughScale {
  /** Air wavelength in powers of t = (pixel - pivotPixel) / pixelScale. */
  readonly coefficients: Float64Array;
  readonly pivotPixel: number;
  readonly pixelScale: number;
  /** Log-likelihood gain over chance. */
  readonly score: number;
  /** The same for the best scale that is another one. */
  readonly runnerUp: number;
  /** Lines laid on known ones. */
  readonly matched: number;
  /** Share of each lamp's stronger lines that are laid on known ones, in the order of the lamps. */
  readonly explained: readonly number[];
}

/** Nominal range from the session: may be tens of nm off. */
export interface NominalRange {
  readonly startNm: number;
  readonly endNm: number;
}
