import { fitNonlinear } from '../numeric/index.js';
import type { LineShape } from './lineShape.js';
import type { FoundLine } from './types.js';

/** A group of neighbouring lines to be fitted together. */
export interface LineGroup {
  readonly counts: Float64Array;
  readonly noise: Float64Array;
  readonly masked: Uint8Array;
  /** First guesses of the centres, pixels, ascending. */
  readonly centres: readonly number[];
  /** Places of lines that are known to be there but show no peak of their own: only their height is fitted. */
  readonly hidden: readonly number[];
  /** Typical full width at half maximum, pixels. */
  readonly width: number;
  /** Nearest peaks outside the group, pixels. */
  readonly before: number;
  readonly after: number;
}

/** A fitted line with the goodness of the fit of its group. */
export interface FittedLine extends FoundLine {
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** What the fit leaves near the line: distance in standard deviations, residual and its noise over the height. */
  readonly left: { readonly z: Float64Array; readonly residual: Float64Array; readonly noise: Float64Array };
}

/**
 * Fits neighbouring lines as profiles of one shape and one common width on a straight baseline.
 *
 * @param group - the data and first guesses
 * @param shape - the profile
 * @param freeSkew - whether a skewness beyond the shape's is fitted, common to the group
 * @returns one line per centre; those that the data cannot place are left out
 */
export function fitLineGroup(group: LineGroup, shape: LineShape, freeSkew: boolean): FittedLine[] {
  const { counts, noise, masked, centres, hidden, width } = group;
  const first = centres[0]!;
  const last = centres[centres.length - 1]!;
  const reach = 1.5 * width + 1;
  const from = Math.max(0, Math.ceil(Math.max(first - reach, (group.before + first) / 2)));
  const to = Math.min(counts.length - 1, Math.floor(Math.min(last + reach, (group.after + last) / 2)));
  const places: number[] = [];
  for (let i = from; i <= to; i++) if (!masked[i]) places.push(i);
  const lines = centres.length;
  const atWidth = 2 * lines;
  const atGround = atWidth + 1;
  const atHidden = atWidth + 3;
  const size = atHidden + hidden.length + (freeSkew ? 1 : 0);
  if (places.length < size + 1) return [];
  const y = Float64Array.from(places, (i) => counts[i]!);
  const weights = Float64Array.from(places, (i) => 1 / noise[i]! ** 2);
  const middle = (from + to) / 2;
  const half = Math.max(1, (to - from) / 2);

  const start = new Float64Array(size);
  const lower = new Float64Array(size).fill(Number.NEGATIVE_INFINITY);
  const ground = Math.min(...y);
  for (let k = 0; k < lines; k++) {
    start[2 * k] = startHeight(group, centres[k]!, ground);
    start[2 * k + 1] = centres[k]!;
  }
  start[atWidth] = width / shape.fwhm;
  lower[atWidth] = (0.2 * width) / shape.fwhm;
  start[atGround] = ground;
  for (let k = 0; k < hidden.length; k++) lower[atHidden + k] = 0;

  const model = (p: Float64Array, out: Float64Array): void => {
    const sigma = p[atWidth]!;
    const skew = freeSkew ? p[size - 1]! : 0;
    for (let n = 0; n < places.length; n++) {
      const x = places[n]!;
      let value = p[atGround]! + (p[atGround + 1]! * (x - middle)) / half;
      for (let k = 0; k < lines; k++) {
        const z = (x - p[2 * k + 1]!) / sigma;
        if (z < -6 || z > 6) continue;
        value += p[2 * k]! * (shape.value(z) + (skew === 0 ? 0 : skew * shape.skewTerm(z)));
      }
      for (let k = 0; k < hidden.length; k++)
        value += p[atHidden + k]! * shape.value((x - hidden[k]!) / sigma);
      out[n] = value;
    }
  };
  const jacobian = (p: Float64Array, rows: Float64Array[]): void => {
    const sigma = p[atWidth]!;
    for (let n = 0; n < places.length; n++) {
      const row = rows[n]!;
      const x = places[n]!;
      row.fill(0);
      for (let k = 0; k < lines; k++) {
        const z = (x - p[2 * k + 1]!) / sigma;
        if (z < -6 || z > 6) continue;
        const slope = (p[2 * k]! * shape.slope(z)) / sigma;
        row[2 * k] = shape.value(z);
        row[2 * k + 1] = -slope;
        row[atWidth] = row[atWidth]! - slope * z;
        if (freeSkew) row[size - 1] = row[size - 1]! + p[2 * k]! * shape.skewTerm(z);
      }
      for (let k = 0; k < hidden.length; k++) {
        const z = (x - hidden[k]!) / sigma;
        row[atHidden + k] = shape.value(z);
        row[atWidth] = row[atWidth]! - (p[atHidden + k]! * shape.slope(z) * z) / sigma;
      }
      row[atGround] = 1;
      row[atGround + 1] = (x - middle) / half;
    }
  };
  const fit = fitNonlinear(model, y, start, { weights, jacobian, lower, maxIterations: 40 });
  // Where the shape is not quite the right one, the misfit widens the uncertainty beyond the noise.
  const inflate = Math.max(1, fit.residualStandardDeviation);
  const deviation = (k: number): number => Math.sqrt(fit.covariance[k]![k]!) * inflate;
  const fitted = new Float64Array(places.length);
  model(fit.parameters, fitted);
  const residuals = y.map((value, n) => value - fitted[n]!);
  const sigma = fit.parameters[atWidth]!;
  const fwhmPixels = sigma * shape.fwhm;

  const found: FittedLine[] = [];
  for (let k = 0; k < lines; k++) {
    const height = fit.parameters[2 * k]!;
    const pixel = fit.parameters[2 * k + 1]!;
    const pixelUncertainty = deviation(2 * k + 1);
    if (!(height > 0) || !(pixelUncertainty < width) || Math.abs(pixel - centres[k]!) > width) continue;
    const neighbours = [group.before, group.after, ...centres.filter((_, j) => j !== k)];
    found.push({
      pixel,
      pixelUncertainty,
      height,
      significance: height / Math.sqrt(fit.covariance[2 * k]![2 * k]!),
      fwhmPixels,
      fwhmUncertaintyPixels: deviation(atWidth) * shape.fwhm,
      ...(freeSkew
        ? { skewness: shape.skewness + fit.parameters[size - 1]!, skewnessUncertainty: deviation(size - 1) }
        : residualSkew(places, residuals, weights, { pixel, sigma, height }, shape)),
      nearestPixels: Math.min(...neighbours.map((other) => Math.abs(other - pixel))),
      trouble: touchesMask(masked, pixel, fwhmPixels) ? 'saturated' : null,
      chiSquare: fit.weightedSumOfSquares,
      degreesOfFreedom: fit.degreesOfFreedom,
      left: {
        z: Float64Array.from(places, (place) => (place - pixel) / sigma),
        residual: residuals.map((residual) => residual / height),
        noise: Float64Array.from(places, (place) => noise[place]! / height),
      },
    });
  }
  return found;
}

/** Height of the highest unmasked pixel within half a width of a place: a clipped line has no counts in its middle. */
function startHeight({ counts, noise, masked, width }: LineGroup, place: number, ground: number): number {
  const from = Math.max(0, Math.floor(place - Math.max(1, width / 2)));
  const to = Math.min(counts.length - 1, Math.ceil(place + Math.max(1, width / 2)));
  let height = 0;
  for (let i = from; i <= to; i++) if (!masked[i]) height = Math.max(height, counts[i]! - ground, noise[i]!);
  return height;
}

function touchesMask(masked: Uint8Array, pixel: number, fwhm: number): boolean {
  const from = Math.max(0, Math.floor(pixel - fwhm));
  const to = Math.min(masked.length - 1, Math.ceil(pixel + fwhm));
  for (let i = from; i <= to; i++) if (masked[i]) return true;
  return false;
}

/** The skewness beyond the shape's that the residuals of one line still hold. */
function residualSkew(
  places: readonly number[],
  residuals: Float64Array,
  weights: Float64Array,
  line: { pixel: number; sigma: number; height: number },
  shape: LineShape,
): { skewness: number; skewnessUncertainty: number } {
  const near: { weight: number; residual: number; skew: number; slope: number }[] = [];
  for (let n = 0; n < places.length; n++) {
    const z = (places[n]! - line.pixel) / line.sigma;
    if (z < -3 || z > 3) continue;
    near.push({
      weight: weights[n]!,
      residual: residuals[n]!,
      skew: shape.skewTerm(z),
      slope: shape.slope(z),
    });
  }
  // The centre was free in the fit, so only the part of the term that a move of the line cannot imitate tells.
  const cross = near.reduce((sum, v) => sum + v.weight * v.skew * v.slope, 0);
  const slopes = near.reduce((sum, v) => sum + v.weight * v.slope ** 2, 0);
  let dot = 0;
  let norm = 0;
  for (const v of near) {
    const pure = v.skew - (slopes === 0 ? 0 : (cross / slopes) * v.slope);
    dot += v.weight * pure * v.residual;
    norm += v.weight * pure * pure;
  }
  if (norm === 0) return { skewness: shape.skewness, skewnessUncertainty: Number.POSITIVE_INFINITY };
  return {
    skewness: shape.skewness + dot / norm / line.height,
    skewnessUncertainty: 1 / Math.sqrt(norm) / line.height,
  };
}
