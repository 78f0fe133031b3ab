import { type BandShape, bandCurve, type ShapePrior } from './bandShape.js';
import { bandSlopes } from './bandSlopes.js';
import { applySpread, type SpreadMatrix } from './spreadMatrix.js';

/** A band as the pixels see it. Both functions fill arrays that they use again at the next call. */
export interface BandView {
  readonly see: (parameters: Float64Array) => Float64Array;
  /** Derivatives of what the pixels see, one array per parameter. */
  readonly seeSlopes: (parameters: Float64Array) => readonly Float64Array[];
}

/**
 * How pixels see a band shape through the line spread.
 *
 * @param shape - the shape
 * @param matrix - weights of the pixels
 * @returns values and derivatives at given parameters
 */
export function bandView(shape: BandShape, matrix: SpreadMatrix): BandView {
  const { gridNm } = matrix;
  const pixels = matrix.rows.length;
  const curve = new Float64Array(gridNm.length);
  const seen = new Float64Array(pixels);
  const slopes = Array.from({ length: shape.size }, () => new Float64Array(gridNm.length));
  const seenSlopes = Array.from({ length: shape.size }, () => new Float64Array(pixels));
  return {
    see: (parameters) => {
      const value = bandCurve(shape, parameters);
      for (let g = 0; g < curve.length; g++) curve[g] = value(gridNm[g]!);
      applySpread(matrix, curve, seen);
      return seen;
    },
    seeSlopes: (parameters) => {
      bandSlopes(shape, parameters, gridNm, slopes);
      for (let k = 0; k < shape.size; k++) applySpread(matrix, slopes[k]!, seenSlopes[k]!);
      return seenSlopes;
    },
  };
}

/** A least-squares problem: pixels first, then the parameters that a prior holds. */
export interface HeldProblem {
  readonly model: (parameters: Float64Array, out: Float64Array) => void;
  readonly jacobian: (parameters: Float64Array, rows: Float64Array[]) => void;
  readonly y: Float64Array;
  readonly weights: Float64Array;
}

/**
 * Adds a prior to the pixels: each parameter that it holds counts as one more measured value.
 *
 * @param data - pixels with their standard uncertainties
 * @param prior - means and deviations
 * @param view - how the pixels see the band
 * @returns the problem for fitNonlinear
 */
export function heldToPrior(
  data: { readonly transmittance: Float64Array; readonly standardUncertainty: Float64Array },
  prior: ShapePrior,
  view: BandView,
): HeldProblem {
  const pixels = data.transmittance.length;
  const held = Array.from(prior.deviation.keys()).filter((k) => prior.deviation[k]! < Infinity);
  return {
    model: (parameters, out) => {
      out.set(view.see(parameters));
      for (let n = 0; n < held.length; n++) out[pixels + n] = parameters[held[n]!]!;
    },
    jacobian: (parameters, rows) => {
      const slopes = view.seeSlopes(parameters);
      for (let i = 0; i < pixels; i++) for (let k = 0; k < slopes.length; k++) rows[i]![k] = slopes[k]![i]!;
      for (let n = 0; n < held.length; n++) {
        rows[pixels + n]!.fill(0);
        rows[pixels + n]![held[n]!] = 1;
      }
    },
    y: Float64Array.of(...data.transmittance, ...held.map((k) => prior.mean[k]!)),
    weights: Float64Array.of(
      ...Array.from(data.standardUncertainty, (u) => 1 / u ** 2),
      ...held.map((k) => 1 / prior.deviation[k]! ** 2),
    ),
  };
}
