import type { Prior } from './prior.js';

/**
 * A normal prior combined with a measurement whose error is normal: the mean weighted by the inverse variances.
 *
 * @param prior - mean and standard uncertainty above 0
 * @param measured - value and standard uncertainty above 0, same unit
 * @returns value and standard uncertainty after the measurement
 * @throws {RangeError} an uncertainty not above 0
 *
 * Source: JCGM 106:2012, annex A (from memory); a textbook form.
 */
export function normalPosterior(
  prior: Extract<Prior, { readonly kind: 'normal' }>,
  measured: { readonly value: number; readonly standardUncertainty: number },
): { readonly value: number; readonly standardUncertainty: number } {
  if (!(prior.standardUncertainty > 0 && measured.standardUncertainty > 0)) {
    throw new RangeError(
      `normalPosterior requires uncertainties > 0, got ${prior.standardUncertainty} and ${measured.standardUncertainty}`,
    );
  }
  const priorWeight = 1 / prior.standardUncertainty ** 2;
  const weight = 1 / measured.standardUncertainty ** 2;
  return {
    value: (prior.mean * priorWeight + measured.value * weight) / (priorWeight + weight),
    standardUncertainty: 1 / Math.sqrt(priorWeight + weight),
  };
}
