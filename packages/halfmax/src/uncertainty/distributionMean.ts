import type { Distribution } from './distribution.js';
import { distributionSize } from './distributionSize.js';

/**
 * Expectation of each number a distribution describes, in closed form.
 *
 * @param distribution - any kind
 * @returns one mean per number; for Student's t with one degree of freedom or fewer, where no expectation exists,
 *   the centre of symmetry
 * @throws {RangeError} parameters out of range
 *
 * Source: JCGM 101:2008, 6.4.
 * @example
 * distributionMean({ kind: 'rectangular', lower: 1, upper: 3 })[0]; // => 2
 */
export function distributionMean(distribution: Distribution): Float64Array {
  const size = distributionSize(distribution);
  switch (distribution.kind) {
    case 'normal':
    case 'student':
      return Float64Array.of(distribution.mean);
    case 'rectangular':
    case 'triangular':
    case 'trapezoidal':
    case 'curvilinearTrapezoid':
    case 'arcsine':
      return Float64Array.of((distribution.lower + distribution.upper) / 2);
    case 'gamma':
      return Float64Array.of(distribution.shape * distribution.scale);
    case 'lognormal':
      return Float64Array.of(Math.exp(distribution.logMean + distribution.logStandardDeviation ** 2 / 2));
    case 'independentNormal':
    case 'multivariateNormal':
      return Float64Array.from(distribution.mean);
    case 'resampled': {
      let sum = 0;
      for (let i = 0; i < distribution.values.length; i++) sum += distribution.values[i]!;
      return new Float64Array(size).fill(sum / distribution.values.length);
    }
  }
}
