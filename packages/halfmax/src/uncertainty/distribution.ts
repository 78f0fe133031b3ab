/**
 * What is known of an input quantity. Most kinds describe one number; `independentNormal`, `multivariateNormal` and
 * `resampled` describe several, which take as many places in the model's argument.
 *
 * Source: JCGM 101:2008, 6.4 (table 1), for all but the last three kinds.
 */
export type Distribution =
  /** Gaussian. */
  | { readonly kind: 'normal'; readonly mean: number; readonly standardUncertainty: number }
  /** Equal chance between two limits. */
  | { readonly kind: 'rectangular'; readonly lower: number; readonly upper: number }
  /** Symmetric triangle between two limits. */
  | { readonly kind: 'triangular'; readonly lower: number; readonly upper: number }
  /** Symmetric trapezoid; `topOverBase` from 0 (triangle) to 1 (rectangle). */
  | {
      readonly kind: 'trapezoidal';
      readonly lower: number;
      readonly upper: number;
      readonly topOverBase: number;
    }
  /** Rectangle whose limits are themselves known only within +- `limitUncertainty`: a curvilinear trapezoid. */
  | {
      readonly kind: 'curvilinearTrapezoid';
      readonly lower: number;
      readonly upper: number;
      readonly limitUncertainty: number;
    }
  /** U-shaped: a sine of unknown phase between two limits. */
  | { readonly kind: 'arcsine'; readonly lower: number; readonly upper: number }
  /** Student's t, shifted to `mean` and scaled by `scale` (the standard uncertainty of a type A evaluation). */
  | {
      readonly kind: 'student';
      readonly mean: number;
      readonly scale: number;
      readonly degreesOfFreedom: number;
    }
  /** Gamma; shape 1 is the exponential distribution. */
  | { readonly kind: 'gamma'; readonly shape: number; readonly scale: number }
  /** A quantity whose natural logarithm is Gaussian. */
  | { readonly kind: 'lognormal'; readonly logMean: number; readonly logStandardDeviation: number }
  /** Several Gaussian quantities with a covariance matrix, which may be singular. */
  | {
      readonly kind: 'multivariateNormal';
      readonly mean: ArrayLike<number>;
      readonly covariance: ArrayLike<ArrayLike<number>>;
    }
  /** Several Gaussian quantities that do not depend on one another, such as the pixels of a spectrum. */
  | {
      readonly kind: 'independentNormal';
      readonly mean: ArrayLike<number>;
      readonly standardUncertainty: ArrayLike<number>;
    }
  /** `count` values (1 when left out) drawn with replacement from a list, such as the residuals of a fit. */
  | { readonly kind: 'resampled'; readonly values: ArrayLike<number>; readonly count?: number };

/** A distribution with the name of the source of uncertainty it stands for; several inputs may share a source. */
export interface UncertainInput {
  readonly source: string;
  readonly distribution: Distribution;
}

/**
 * The quantity of interest as a function of the inputs: reads `x` and writes its results into `out`.
 * It must not keep or change `x`, and must not depend on earlier calls.
 */
export type Model = (x: Float64Array, out: Float64Array) => void;

/**
 * A model that works out many trials side by side, where that is quicker than one after the other. `x` holds for each
 * place of the argument a row with one number per trial, `out` for each result a row to be written, NaN where a trial
 * has none. It must not keep or change `x`. Rows are always full: trials beyond the count asked for are left out.
 */
export interface RowModel {
  /** Trials side by side: numbers in a row, best `rowTrials`. */
  readonly trials: number;
  readonly run: (x: Float64Array, out: Float64Array) => void;
}
