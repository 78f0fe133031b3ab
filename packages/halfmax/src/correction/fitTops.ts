import type { Unevenness } from './bandShape.js';
import { type BandData, type BandFit, fitBand } from './fitBand.js';

/** A fit with how likely its kind of top is, given the pixels. */
export interface LikelyFit extends BandFit {
  /** Posterior probability; those of all fits sum to 1. */
  readonly share: number;
}

/**
 * Kinds of tops, and how likely each is before the pixels are seen: even; even but for fine ripples, which a line spread
 * may hide; as usual; strongly rippled. Common practice, no source.
 */
const KINDS: readonly { readonly unevenness: Unevenness; readonly likely: number }[] = [
  { unevenness: { coarse: 0.15, fine: 0.15 }, likely: 0.2 },
  { unevenness: { coarse: 0.15, fine: 3 }, likely: 0.2 },
  { unevenness: { coarse: 1, fine: 1 }, likely: 0.3 },
  { unevenness: { coarse: 3, fine: 3 }, likely: 0.3 },
];
const USUAL: Unevenness = { coarse: 1, fine: 1 };
/** A kind of top less likely than this is left out. */
const LEAST_SHARE = 0.01;

/**
 * Fits a band for each kind of top, from even to strongly rippled, and weighs the fits by how well each kind explains
 * the pixels. Ripples finer than the line spread cannot be seen: the kinds then stay equally likely, and their
 * difference is part of what is not known.
 *
 * @param data - pixels of the band and its feet
 * @returns the likely fits, from even to uneven
 * Source: Bayesian model averaging with the evidence by Laplace's approximation (D. J. C. MacKay, Neural Computation 4,
 * 415 (1992); J. A. Hoeting et al., Statistical Science 14, 382 (1999)). From memory.
 */
export function fitTops(data: BandData): readonly LikelyFit[] {
  const usual = fitBand(data, { unevenness: USUAL });
  const fits = KINDS.map(({ unevenness, likely }) => {
    const fit = fitBand(data, { unevenness, start: usual.parameters });
    return { fit, likely };
  });
  // Where no kind fits to the noise, the noise is larger than stated, and the pixels say less.
  const excess = Math.max(1, Math.min(...fits.map(({ fit }) => fit.misfit)));
  const logs = fits.map(({ fit, likely }) => Math.log(likely) + logEvidence(fit, excess));
  const highest = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - highest));
  const sum = weights.reduce((a, b) => a + b, 0);
  const kept = fits
    .map(({ fit }, n): LikelyFit => ({ ...fit, share: weights[n]! / sum }))
    .filter(({ share }) => share >= LEAST_SHARE);
  const rest = kept.reduce((total, { share }) => total + share, 0);
  return kept.map((fit) => ({ ...fit, share: fit.share / rest }));
}

/** Logarithm of the evidence but for a constant of the data. */
function logEvidence(fit: BandFit, excess: number): number {
  const held = fit.prior.deviation.filter((deviation) => deviation < Infinity);
  const priors = held.reduce((total, deviation) => total + Math.log(deviation), 0);
  return -0.5 * (fit.cost / excess ** 2) + 0.5 * logDeterminant(fit.covariance) - priors;
}

/** Logarithm of the determinant of a positive definite matrix, by its Cholesky factor. */
function logDeterminant(matrix: readonly Float64Array[]): number {
  const factor = matrix.map((row) => Float64Array.from(row));
  let log = 0;
  for (let i = 0; i < factor.length; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = factor[i]![j]!;
      for (let k = 0; k < j; k++) sum -= factor[i]![k]! * factor[j]![k]!;
      factor[i]![j] = i === j ? Math.sqrt(Math.max(Number.MIN_VALUE, sum)) : sum / factor[j]![j]!;
    }
    log += 2 * Math.log(factor[i]![i]!);
  }
  return log;
}
