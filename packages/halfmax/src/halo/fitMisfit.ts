import type { AnsweringFit } from './fitResponse.js';
import { medianOf } from './medianOf.js';

/** How far the rings lie from the model beyond their noise. */
export interface Misfit {
  /** Factor on the noise of the rings where the wings are faint, >= 1. */
  readonly noiseFactor: number;
  /** Share of the wings' light by which their model is wrong, >= 0. */
  readonly wingShare: number;
  /** Variance that comes to each ring's own, counts squared. */
  readonly extraVariance: Float64Array;
}

const HALF_NORMAL_MEDIAN = 0.6744897501960817;
/** Wings brighter than this many standard uncertainties of the ring are judged as wings. */
const BRIGHT = 5;

/**
 * Judges how well a fit meets the rings: the part of the misfit that is in proportion to the wings, and the part
 * that is not. Medians are used: the edges of a disk not yet found hardly count.
 *
 * @param fit - as fitted
 * @returns what to add to the noise of the rings
 */
export function fitMisfit(fit: AnsweringFit): Misfit {
  const n = fit.ringResidual.length;
  const bright: number[] = [];
  const faint: number[] = [];
  for (let i = 0; i < n; i++) {
    if (!Number.isFinite(fit.ringUncertainty[i]!)) continue;
    (Math.abs(fit.wingLight[i]!) > BRIGHT * fit.ringUncertainty[i]! ? bright : faint).push(i);
  }
  const ratio = (rings: readonly number[], share: number): number =>
    medianOf(
      rings.map(
        (i) =>
          Math.abs(fit.ringResidual[i]!) / Math.hypot(fit.ringUncertainty[i]!, share * fit.wingLight[i]!),
      ),
    ) / HALF_NORMAL_MEDIAN;
  // A ratio that is high by chance, as it is half the time, is no misfit.
  const allowed = (count: number): number => 1 + 1.5 / Math.sqrt(count);
  let noiseFactor = 1;
  if (faint.length >= 10) {
    const found = ratio(faint, 0);
    if (found > allowed(faint.length)) noiseFactor = found;
  }
  let wingShare = 0;
  if (bright.length >= 6 && ratio(bright, 0) > allowed(bright.length)) {
    let low = 0;
    let high = 1;
    for (let step = 0; step < 40; step++) {
      wingShare = (low + high) / 2;
      if (ratio(bright, wingShare) > 1) low = wingShare;
      else high = wingShare;
    }
  }
  const extraVariance = Float64Array.from(fit.ringUncertainty, (sigma, i) =>
    Number.isFinite(sigma)
      ? (noiseFactor ** 2 - 1) * sigma * sigma + (wingShare * fit.wingLight[i]!) ** 2
      : 0,
  );
  return { noiseFactor, wingShare, extraVariance };
}
