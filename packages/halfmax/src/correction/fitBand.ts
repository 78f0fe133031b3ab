import { fitNonlinear, type NonlinearFit } from '../numeric/index.js';
import {
  ASYMMETRY,
  type BandShape,
  FIRST_RIPPLE,
  GROUND,
  HEIGHT,
  LEAST_LOG_STEEPNESS,
  LEAST_TAIL,
  LOG_STEEPNESS,
  LOG_WIDTH,
  MOST_LOG_STEEPNESS,
  MOST_TAIL,
  type ShapePrior,
  shapePrior,
  TAIL,
  type Unevenness,
} from './bandShape.js';
import { bandView, heldToPrior } from './bandView.js';
import type { SpreadMatrix } from './spreadMatrix.js';

/** A band to be fitted through the line spread. */
export interface BandData {
  /** Pixels, ascending, nm. */
  readonly wavelengthNm: Float64Array;
  readonly transmittance: Float64Array;
  /** Of each pixel, independent, above 0. */
  readonly standardUncertainty: Float64Array;
  readonly matrix: SpreadMatrix;
  /** First guesses, from the curve as measured. */
  readonly centreNm: number;
  readonly fwhmNm: number;
  readonly peakTransmittance: number;
  /** Full width of the line spread, nm. */
  readonly lineSpreadNm: number;
}

/** A band as it is without the instrument, and how the data carry it. */
export interface BandFit {
  readonly shape: BandShape;
  readonly prior: ShapePrior;
  readonly parameters: Float64Array;
  /** Covariance from the pixels' noise and the prior. */
  readonly covariance: readonly Float64Array[];
  /** Change of the parameters per change of each pixel, one row per parameter. */
  readonly response: readonly Float64Array[];
  /** The fit as the pixels see it. */
  readonly seen: Float64Array;
  /** Root of the mean weighted square of the residuals: 1 where the shape fits to the noise. */
  readonly misfit: number;
  readonly converged: boolean;
  /** Weighted sum of squares of residuals and of departures from the prior. */
  readonly cost: number;
}

/**
 * Fits a flexible band shape, seen through the line spread, to the pixels of a passband: the line spread is taken out
 * since the shape that is found is the one before it.
 *
 * @param data - pixels of the band and its feet
 * @param options - how uneven the top may be; where to start, by default from several edges
 * @returns the fit
 * Source: forward model with a prior, most probable parameters by least squares (A. Tarantola, Inverse Problem Theory,
 * 2005, chapter 3).
 */
export function fitBand(
  data: BandData,
  options: { readonly unevenness?: Unevenness; readonly start?: Float64Array } = {},
): BandFit {
  const pixels = data.wavelengthNm.length;
  const shape: BandShape = { originNm: data.centreNm, ripples: RIPPLES, size: FIRST_RIPPLE + RIPPLES };
  const prior = shapePrior(shape, options.unevenness);
  const view = bandView(shape, data.matrix);
  const { model, jacobian, y, weights } = heldToPrior(data, prior, view);
  const { lower, upper } = bounds(shape, data.fwhmNm);
  const further = (start: Float64Array, maxIterations: number): NonlinearFit =>
    fitNonlinear(model, y, start, { weights, jacobian, lower, upper, maxIterations });
  const fit = further(options.start ?? bestStart(data, shape, further), MOST_STEPS);
  const { parameters, covariance } = fit;
  const seen = Float64Array.from(view.see(parameters));
  let square = 0;
  for (let i = 0; i < pixels; i++)
    square += ((data.transmittance[i]! - seen[i]!) / data.standardUncertainty[i]!) ** 2;
  return {
    shape,
    prior,
    parameters,
    covariance,
    response: responseOf(view.seeSlopes(parameters), covariance, data.standardUncertainty),
    seen,
    misfit: Math.sqrt(square / Math.max(1, pixels - determinedBy(covariance, prior.deviation))),
    converged: fit.converged,
    cost: fit.weightedSumOfSquares,
  };
}

/** Steepness and tail that fits start from: flat tops, a sharp box, a Lorentzian and a Gaussian. */
const STARTS: readonly (readonly [steepness: number, tail: number])[] = [
  [3, 0.7],
  [18, 1],
  [1, 1],
  [1, 0.1],
];
/** Steps each start is given before the best goes on, and steps of that. */
const FIRST_STEPS = 10;
const MOST_STEPS = 60;
/** Cosine terms across the top: up to four full ripples. */
const RIPPLES = 8;

/** A sharp edge and a round one are apart by a valley that a single start may not cross: the best of several. */
function bestStart(
  data: BandData,
  shape: BandShape,
  further: (start: Float64Array, steps: number) => NonlinearFit,
): Float64Array {
  const start = new Float64Array(shape.size);
  start[HEIGHT] = 1.02 * data.peakTransmittance;
  start[LOG_WIDTH] = Math.log(
    Math.max(0.5 * data.fwhmNm, data.fwhmNm - (0.2 * data.lineSpreadNm ** 2) / data.fwhmNm),
  );
  const fits = STARTS.map(([steepness, tail]) => {
    start[LOG_STEEPNESS] = Math.log(steepness);
    start[TAIL] = tail;
    return further(start, FIRST_STEPS);
  });
  return fits.reduce((a, b) => (b.weightedSumOfSquares < a.weightedSumOfSquares ? b : a)).parameters;
}

function bounds(shape: BandShape, fwhmNm: number): { lower: Float64Array; upper: Float64Array } {
  const lower = new Float64Array(shape.size).fill(Number.NEGATIVE_INFINITY);
  const upper = new Float64Array(shape.size).fill(Number.POSITIVE_INFINITY);
  const within = (k: number, low: number, high: number): void => {
    lower[k] = low;
    upper[k] = high;
  };
  within(TAIL, LEAST_TAIL, MOST_TAIL);
  within(LOG_STEEPNESS, LEAST_LOG_STEEPNESS, MOST_LOG_STEEPNESS);
  within(LOG_WIDTH, Math.log(0.2 * fwhmNm), Math.log(2 * fwhmNm));
  within(ASYMMETRY, -0.8, 0.8);
  within(GROUND, -0.05, 0.05);
  return { lower, upper };
}

/** Parameters that the data rather than the prior determine. */
function determinedBy(covariance: readonly Float64Array[], deviation: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < deviation.length; k++) sum += 1 - Math.min(1, covariance[k]![k]! / deviation[k]! ** 2);
  return sum;
}

/** Covariance times derivatives times weights: how the fitted parameters follow each pixel. */
function responseOf(
  derivatives: readonly Float64Array[],
  covariance: readonly Float64Array[],
  standardUncertainty: Float64Array,
): Float64Array[] {
  const size = derivatives.length;
  const pixels = standardUncertainty.length;
  return Array.from({ length: size }, (_, j) => {
    const row = new Float64Array(pixels);
    for (let k = 0; k < size; k++) {
      const share = covariance[j]![k]!;
      for (let i = 0; i < pixels; i++)
        row[i]! += (share * derivatives[k]![i]!) / standardUncertainty[i]! ** 2;
    }
    return row;
  });
}
