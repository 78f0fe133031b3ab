import { fitNonlinear } from '../numeric/index.js';
import {
  ASYMMETRY,
  type BandShape,
  bandCurve,
  CENTRE,
  FIRST_RIPPLE,
  GROUND,
  HEIGHT,
  LEAST_LOG_STEEPNESS,
  LEAST_TAIL,
  LOG_STEEPNESS,
  LOG_WIDTH,
  MOST_LOG_STEEPNESS,
  MOST_TAIL,
  shapePrior,
  TAIL,
} from './bandShape.js';
import { bandSlopes } from './bandSlopes.js';
import { applySpread, type SpreadMatrix } from './spreadMatrix.js';

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
}

/**
 * Fits a flexible band shape, seen through the line spread, to the pixels of a passband: the line spread is taken out
 * since the shape that is found is the one before it.
 *
 * @param data - pixels of the band and its feet
 * @returns the fit
 * Source: forward model with a prior, most probable parameters by least squares (A. Tarantola, Inverse Problem Theory,
 * 2005, chapter 3).
 */
export function fitBand(data: BandData): BandFit {
  const pixels = data.wavelengthNm.length;
  const shape: BandShape = { originNm: data.centreNm, ripples: RIPPLES, size: FIRST_RIPPLE + RIPPLES };
  const prior = shapePrior(shape);
  const held = Array.from(prior.deviation, (deviation, k) => ({ k, deviation })).filter(
    ({ deviation }) => deviation < Infinity,
  );
  const curve = new Float64Array(data.matrix.gridNm.length);
  const seen = new Float64Array(pixels);
  const see = (parameters: Float64Array): Float64Array => {
    const value = bandCurve(shape, parameters);
    for (let g = 0; g < curve.length; g++) curve[g] = value(data.matrix.gridNm[g]!);
    applySpread(data.matrix, curve, seen);
    return seen;
  };
  const model = (parameters: Float64Array, out: Float64Array): void => {
    out.set(see(parameters));
    held.forEach(({ k }, n) => {
      out[pixels + n] = parameters[k]!;
    });
  };
  const y = Float64Array.of(...data.transmittance, ...held.map(({ k }) => prior.mean[k]!));
  const weights = Float64Array.of(
    ...Array.from(data.standardUncertainty, (u) => 1 / u ** 2),
    ...held.map(({ deviation }) => 1 / deviation ** 2),
  );
  const slopes = Array.from({ length: shape.size }, () => new Float64Array(curve.length));
  const seenSlopes = Array.from({ length: shape.size }, () => new Float64Array(pixels));
  const seeSlopes = (parameters: Float64Array): readonly Float64Array[] => {
    bandSlopes(shape, parameters, data.matrix.gridNm, slopes);
    for (let k = 0; k < shape.size; k++) applySpread(data.matrix, slopes[k]!, seenSlopes[k]!);
    return seenSlopes;
  };
  const jacobian = (parameters: Float64Array, rows: Float64Array[]): void => {
    seeSlopes(parameters);
    for (let i = 0; i < pixels; i++) for (let k = 0; k < shape.size; k++) rows[i]![k] = seenSlopes[k]![i]!;
    held.forEach(({ k }, n) => {
      rows[pixels + n]!.fill(0);
      rows[pixels + n]![k] = 1;
    });
  };
  const start = new Float64Array(shape.size);
  start[HEIGHT] = 1.02 * data.peakTransmittance;
  start[CENTRE] = 0;
  start[LOG_WIDTH] = Math.log(
    Math.max(0.5 * data.fwhmNm, data.fwhmNm - (0.2 * data.lineSpreadNm ** 2) / data.fwhmNm),
  );
  const lower = new Float64Array(shape.size).fill(Number.NEGATIVE_INFINITY);
  const upper = new Float64Array(shape.size).fill(Number.POSITIVE_INFINITY);
  lower[TAIL] = LEAST_TAIL;
  upper[TAIL] = MOST_TAIL;
  lower[LOG_STEEPNESS] = LEAST_LOG_STEEPNESS;
  upper[LOG_STEEPNESS] = MOST_LOG_STEEPNESS;
  lower[LOG_WIDTH] = Math.log(0.2 * data.fwhmNm);
  upper[LOG_WIDTH] = Math.log(2 * data.fwhmNm);
  lower[ASYMMETRY] = -0.8;
  upper[ASYMMETRY] = 0.8;
  lower[GROUND] = -0.05;
  upper[GROUND] = 0.05;
  // A sharp edge and a round one are apart by a valley that a single start may not cross.
  const fits = STARTS.map(([steepness, tail]) => {
    start[LOG_STEEPNESS] = Math.log(steepness);
    start[TAIL] = tail;
    return fitNonlinear(model, y, start, { weights, jacobian, lower, upper, maxIterations: FIRST_STEPS });
  });
  const nearest = fits.reduce((a, b) => (b.weightedSumOfSquares < a.weightedSumOfSquares ? b : a));
  const fit = fitNonlinear(model, y, nearest.parameters, {
    weights,
    jacobian,
    lower,
    upper,
    maxIterations: 60,
  });
  const { parameters, covariance } = fit;
  const best = Float64Array.from(see(parameters));
  let square = 0;
  for (let i = 0; i < pixels; i++)
    square += ((data.transmittance[i]! - best[i]!) / data.standardUncertainty[i]!) ** 2;
  return {
    shape,
    parameters,
    covariance,
    response: responseOf(seeSlopes(parameters), covariance, data.standardUncertainty),
    seen: best,
    misfit: Math.sqrt(square / Math.max(1, pixels - determinedBy(covariance, prior.deviation))),
    converged: fit.converged,
  };
}

/** Steepness and tail that fits start from: flat tops, a sharp box, a Lorentzian and a Gaussian. */
const STARTS: readonly (readonly [steepness: number, tail: number])[] = [
  [3, 0.7],
  [18, 1],
  [1, 1],
  [1, 0.1],
];
/** Steps each start is given before the best goes on. */
const FIRST_STEPS = 10;
/** Cosine terms across the top: up to four full ripples. */
const RIPPLES = 8;

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
