import { type BandCorrection, type BandShape, type SpreadMatrix, shapePrior } from '../correction/index.js';

/** Where a draw has the numbers that a fitted shape follows. */
export interface ShapeDraw {
  /** Place in x of width, skewness and further shape of the line spread (one number per parameter). */
  readonly atSpread: number;
  readonly atPrior: number;
  /** The curve as drawn. */
  readonly drawn: Float64Array;
  /** First pixel of the fitted data within it. */
  readonly offset: number;
}

/** How a fitted shape follows pixels, line spread and prior, to first order: plain data. */
export interface ShapeResponse {
  readonly shape: BandShape;
  /** The fitted parameters, and the pixels they were fitted to. */
  readonly parameters: Float64Array;
  readonly transmittance: Float64Array;
  readonly priorDeviation: Float64Array;
  readonly widthUncertainty: number;
  readonly skewnessUncertainty: number;
  /** Covariance of what the shape of the line spread does to the parameters. */
  readonly spreadCovariance: readonly Float64Array[];
  readonly secondWay: BandCorrection['secondWay'];
  /** Change of each parameter by each pixel: rows in groups of four that lie side by side. */
  readonly byPixel: Float64Array;
  /** Change of each parameter by width, skewness and the held parameters' priors, row after row. */
  readonly byFew: Float64Array;
}

const WIDTH_STEP = 0.01;
const SKEWNESS_STEP = 0.05;

/**
 * Works out how the fitted shape of a band follows its inputs.
 *
 * @param correction - the corrected band
 * @returns the response
 */
export function shapeResponse(correction: BandCorrection): ShapeResponse {
  const { fit, data, skewness } = correction;
  const { response, covariance } = fit;
  const prior = shapePrior(fit.shape);
  const held = Array.from(prior.deviation, (deviation, k) => ({ k, deviation })).filter(
    (p) => p.deviation < Infinity,
  );
  const toWidth = answerTo(correction, correction.matrixFor(1 + WIDTH_STEP, skewness), WIDTH_STEP);
  const toSkewness = answerTo(correction, correction.matrixFor(1, skewness + SKEWNESS_STEP), SKEWNESS_STEP);
  const byFew = Array.from(fit.parameters, (_, j) => [
    toWidth[j]!,
    toSkewness[j]!,
    ...held.map(({ k, deviation }) => covariance[j]![k]! / deviation ** 2),
  ]);
  return {
    shape: fit.shape,
    parameters: fit.parameters,
    transmittance: data.transmittance,
    priorDeviation: Float64Array.from(held, ({ deviation }) => deviation),
    widthUncertainty: correction.widthUncertainty,
    skewnessUncertainty: correction.skewnessUncertainty,
    spreadCovariance: carried(response, correction.spreadNoise),
    secondWay: correction.secondWay,
    byPixel: interleaved(response, data.wavelengthNm.length),
    byFew: Float64Array.from(byFew.flat()),
  };
}

/**
 * Makes the function that moves the parameters with a draw.
 *
 * @param response - of the band
 * @returns a function that fills parameters for one draw x
 */
export function shapeFollower(
  response: ShapeResponse,
): (parameters: Float64Array, x: Float64Array, draw: ShapeDraw) => void {
  const { parameters: fitted, transmittance, byPixel, byFew } = response;
  const size = fitted.length;
  const columns = 2 + response.priorDeviation.length;
  const moved = new Float64Array(transmittance.length);
  const sums = new Float64Array(Math.ceil(size / 4) * 4);
  return (parameters, x, { atSpread, atPrior, drawn, offset }) => {
    for (let i = 0; i < moved.length; i++) moved[i] = drawn[offset + i]! - transmittance[i]!;
    multiply(byPixel, moved, sums);
    for (let j = 0; j < size; j++) {
      const at = j * columns;
      let value = fitted[j]! + sums[j]! + x[atSpread + 2 + j]!;
      value += byFew[at]! * x[atSpread]! + byFew[at + 1]! * x[atSpread + 1]!;
      for (let h = 2; h < columns; h++) value += byFew[at + h]! * x[atPrior + h - 2]!;
      parameters[j] = value;
    }
  };
}

/** Rows in groups of four that lie side by side, pixel after pixel; a last group is filled up with zeros. */
function interleaved(rows: readonly Float64Array[], pixels: number): Float64Array {
  const packed = new Float64Array(Math.ceil(rows.length / 4) * 4 * pixels);
  rows.forEach((row, j) => {
    const group = Math.floor(j / 4) * 4 * pixels;
    for (let i = 0; i < pixels; i++) packed[group + 4 * i + (j % 4)] = row[i]!;
  });
  return packed;
}

/** Products of interleaved rows with a vector: four sums side by side, none waiting for another. */
function multiply(packed: Float64Array, vector: Float64Array, out: Float64Array): void {
  let at = 0;
  for (let j = 0; j < out.length; j += 4) {
    let a = 0;
    let b = 0;
    let c = 0;
    let d = 0;
    for (let i = 0; i < vector.length; i++, at += 4) {
      const value = vector[i]!;
      a += packed[at]! * value;
      b += packed[at + 1]! * value;
      c += packed[at + 2]! * value;
      d += packed[at + 3]! * value;
    }
    out[j] = a;
    out[j + 1] = b;
    out[j + 2] = c;
    out[j + 3] = d;
  }
}

/** Covariance of the parameters from independent errors of the pixels: as good as drawing each pixel, and fewer draws. */
function carried(response: readonly Float64Array[], noise: Float64Array): Float64Array[] {
  return response.map((one) =>
    Float64Array.from(response, (other) => {
      let sum = 0;
      for (let i = 0; i < noise.length; i++) sum += one[i]! * other[i]! * noise[i]! ** 2;
      return sum;
    }),
  );
}

/** Change of the fitted parameters per unit of a change of the line spread, the pixels staying as they are. */
function answerTo(correction: BandCorrection, changed: SpreadMatrix, step: number): Float64Array {
  const { fit, data } = correction;
  const seen = correction.seenThrough(changed);
  return Float64Array.from(fit.response, (row) => {
    let sum = 0;
    for (let i = 0; i < data.wavelengthNm.length; i++) sum -= (row[i]! * (seen[i]! - fit.seen[i]!)) / step;
    return sum;
  });
}
