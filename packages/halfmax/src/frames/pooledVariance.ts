import { median } from '../numeric/median.js';

/** Variance common to many pixels. */
export interface PooledVariance {
  readonly variance: number;
  /** Standard uncertainty of the variance, for normal noise. */
  readonly standardUncertainty: number;
  /** Values that went into it. */
  readonly values: number;
}

/**
 * Variance common to many pixels from their sample variances: the mean of those that normal noise can give.
 * A hit or an unstable pixel lies far above and is left out.
 *
 * @param sampleVariances - one per pixel, counts^2, each with the same degrees of freedom; at least one
 * @param degreesOfFreedom - of each sample variance, 1 or more
 * @returns variance and uncertainty, counts^2
 * @throws {RangeError} no values, or less than one degree of freedom
 * Source: limit at 4.5 standard deviations of the cube-root-normal form of chi-squared (Wilson and Hilferty 1931),
 * passed by 3 in a million of good values, so that leaving out does not bias the mean.
 */
export function pooledVariance(sampleVariances: ArrayLike<number>, degreesOfFreedom: number): PooledVariance {
  if (sampleVariances.length === 0) throw new RangeError('pooledVariance requires at least 1 value, got 0');
  if (!(degreesOfFreedom >= 1)) {
    throw new RangeError(`pooledVariance requires degreesOfFreedom >= 1, got ${degreesOfFreedom}`);
  }
  const spread = 2 / (9 * degreesOfFreedom);
  const limit = chiSquaredLimit(degreesOfFreedom, 4.5);
  let variance = median(sampleVariances) / (1 - spread) ** 3;
  let values = 0;
  for (let pass = 0; pass < 3; pass++) {
    let sum = 0;
    values = 0;
    for (let i = 0; i < sampleVariances.length; i++) {
      if (sampleVariances[i]! > limit * variance) continue;
      sum += sampleVariances[i]!;
      values++;
    }
    if (values === 0) break;
    variance = sum / values;
  }
  return {
    variance,
    standardUncertainty: variance * Math.sqrt(2 / (Math.max(1, values) * degreesOfFreedom)),
    values,
  };
}

/** Reduced chi-squared so many standard deviations of its cube root above the mean of that. */
export function chiSquaredLimit(degreesOfFreedom: number, deviations: number): number {
  const spread = 2 / (9 * degreesOfFreedom);
  return (1 - spread + deviations * Math.sqrt(spread)) ** 3;
}
