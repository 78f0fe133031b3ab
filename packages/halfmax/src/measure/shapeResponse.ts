import type { BandCorrection, BandShape, LikelyFit, SpreadMatrix } from '../correction/index.js';
import { covarianceFactor } from '../uncertainty/index.js';

/** Where a draw has the numbers that a fitted shape follows. */
export interface ShapeDraw {
  /** Place in x of width and skewness of the line spread, and of the standard normal numbers that follow them. */
  readonly atSpread: number;
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
  /** How likely this fit is. */
  readonly share: number;
  /** Parameters that the prior holds. */
  readonly held: number;
  /** Change of each parameter by each pixel: rows in groups of eight that lie side by side. */
  readonly byPixel: Float64Array;
  /**
   * Change of each parameter, row after row: by width and skewness of the line spread, then by standard normal numbers,
   * one per parameter for the shape of the line spread and one per parameter that the prior holds.
   */
  readonly byFew: Float64Array;
}

const WIDTH_STEP = 0.01;
const SKEWNESS_STEP = 0.05;

/**
 * Works out how a fitted shape of a band follows its inputs.
 *
 * @param correction - the corrected band
 * @param fit - one of its fits
 * @returns the response
 */
export function shapeResponse(correction: BandCorrection, fit: LikelyFit): ShapeResponse {
  const { data, skewness } = correction;
  const { response, covariance } = fit;
  const held = Array.from(fit.prior.deviation, (deviation, k) => ({ k, deviation })).filter(
    (p) => p.deviation < Infinity,
  );
  const toWidth = answerTo(correction, fit, correction.matrixFor(1 + WIDTH_STEP, skewness), WIDTH_STEP);
  const skewed = correction.matrixFor(1, skewness + SKEWNESS_STEP);
  const toSkewness = answerTo(correction, fit, skewed, SKEWNESS_STEP);
  const toSpread = covarianceFactor(carried(response, correction.spreadNoise));
  const byFew = Array.from(fit.parameters, (_, j) => [
    toWidth[j]!,
    toSkewness[j]!,
    ...toSpread[j]!,
    ...held.map(({ k, deviation }) => covariance[j]![k]! / deviation),
  ]);
  return {
    shape: fit.shape,
    parameters: fit.parameters,
    transmittance: data.transmittance,
    share: fit.share,
    held: held.length,
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
  const { parameters: fitted, transmittance, byPixel, byFew, held } = response;
  const size = fitted.length;
  const columns = 2 + size + held;
  const moved = new Float64Array(transmittance.length);
  const sums = new Float64Array(Math.ceil(size / TOGETHER) * TOGETHER);
  return (parameters, x, { atSpread, drawn, offset }) => {
    for (let i = 0; i < moved.length; i++) moved[i] = drawn[offset + i]! - transmittance[i]!;
    multiply(byPixel, moved, sums);
    for (let j = 0; j < size; j++) {
      const at = j * columns;
      let value = fitted[j]! + sums[j]!;
      for (let h = 0; h < columns; h++) value += byFew[at + h]! * x[atSpread + h]!;
      parameters[j] = value;
    }
  };
}

/** Sums that are made side by side: so many that none waits for another. */
const TOGETHER = 8;

/** Rows in groups that lie side by side, pixel after pixel; a last group is filled up with zeros. */
function interleaved(rows: readonly Float64Array[], pixels: number): Float64Array {
  const packed = new Float64Array(Math.ceil(rows.length / TOGETHER) * TOGETHER * pixels);
  rows.forEach((row, j) => {
    const group = Math.floor(j / TOGETHER) * TOGETHER * pixels;
    for (let i = 0; i < pixels; i++) packed[group + TOGETHER * i + (j % TOGETHER)] = row[i]!;
  });
  return packed;
}

/** Products of interleaved rows with a vector. */
function multiply(packed: Float64Array, vector: Float64Array, out: Float64Array): void {
  let at = 0;
  for (let j = 0; j < out.length; j += TOGETHER) {
    let a = 0;
    let b = 0;
    let c = 0;
    let d = 0;
    let e = 0;
    let f = 0;
    let g = 0;
    let h = 0;
    for (let i = 0; i < vector.length; i++, at += TOGETHER) {
      const value = vector[i]!;
      a += packed[at]! * value;
      b += packed[at + 1]! * value;
      c += packed[at + 2]! * value;
      d += packed[at + 3]! * value;
      e += packed[at + 4]! * value;
      f += packed[at + 5]! * value;
      g += packed[at + 6]! * value;
      h += packed[at + 7]! * value;
    }
    out[j] = a;
    out[j + 1] = b;
    out[j + 2] = c;
    out[j + 3] = d;
    out[j + 4] = e;
    out[j + 5] = f;
    out[j + 6] = g;
    out[j + 7] = h;
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
function answerTo(
  correction: BandCorrection,
  fit: LikelyFit,
  changed: SpreadMatrix,
  step: number,
): Float64Array {
  const { data } = correction;
  const seen = correction.seenThrough(fit, changed);
  return Float64Array.from(fit.response, (row) => {
    let sum = 0;
    for (let i = 0; i < data.wavelengthNm.length; i++) sum -= (row[i]! * (seen[i]! - fit.seen[i]!)) / step;
    return sum;
  });
}
