import type { Distribution } from './distribution.js';
import { distributionMean } from './distributionMean.js';

/**
 * Covariance matrix of the numbers a distribution describes, in closed form.
 *
 * @param distribution - any kind
 * @returns n rows of n, n the count of numbers described
 * @throws {RangeError} parameters out of range, or Student's t with 2 degrees of freedom or fewer, where no variance
 *   exists
 *
 * Source: JCGM 101:2008, 6.4.
 * @example
 * distributionCovariance({ kind: 'rectangular', lower: 0, upper: 6 })[0][0]; // => 3
 */
export function distributionCovariance(distribution: Distribution): Float64Array[] {
  const mean = distributionMean(distribution);
  if (distribution.kind === 'multivariateNormal') {
    return Array.from(distribution.covariance, (row) => Float64Array.from(row));
  }
  return Array.from(mean, (_, i) => {
    const row = new Float64Array(mean.length);
    row[i] = variance(distribution, mean[i]!, i);
    return row;
  });
}

function variance(
  distribution: Exclude<Distribution, { kind: 'multivariateNormal' }>,
  mean: number,
  index: number,
): number {
  switch (distribution.kind) {
    case 'normal':
      return distribution.standardUncertainty ** 2;
    case 'rectangular':
      return width(distribution) ** 2 / 12;
    case 'triangular':
      return width(distribution) ** 2 / 24;
    case 'trapezoidal':
      return (width(distribution) ** 2 * (1 + distribution.topOverBase ** 2)) / 24;
    case 'curvilinearTrapezoid':
      return width(distribution) ** 2 / 12 + distribution.limitUncertainty ** 2 / 9;
    case 'arcsine':
      return width(distribution) ** 2 / 8;
    case 'student': {
      const { scale, degreesOfFreedom } = distribution;
      if (degreesOfFreedom > 2) return (scale ** 2 * degreesOfFreedom) / (degreesOfFreedom - 2);
      throw new RangeError(`distributionCovariance requires degreesOfFreedom > 2, got ${degreesOfFreedom}`);
    }
    case 'gamma':
      return distribution.shape * distribution.scale ** 2;
    case 'lognormal':
      return Math.expm1(distribution.logStandardDeviation ** 2) * mean ** 2;
    case 'independentNormal':
      return distribution.standardUncertainty[index]! ** 2;
    case 'resampled': {
      const { values } = distribution;
      let sum = 0;
      for (let i = 0; i < values.length; i++) sum += (values[i]! - mean) ** 2;
      return sum / values.length;
    }
  }
}

function width(limits: { lower: number; upper: number }): number {
  return limits.upper - limits.lower;
}
