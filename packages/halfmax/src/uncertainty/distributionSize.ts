import type { Distribution } from './distribution.js';

/**
 * How many numbers a distribution describes, after checking that its parameters make sense.
 *
 * @param distribution - any kind
 * @returns count of places it takes in a model's argument, 1 or more
 * @throws {RangeError} a parameter that is not finite or out of its range
 */
export function distributionSize(distribution: Distribution): number {
  const { kind } = distribution;
  switch (kind) {
    case 'normal':
      demand(finite(distribution.mean), kind, 'a finite mean', distribution.mean);
      demand(
        notNegative(distribution.standardUncertainty),
        kind,
        NOT_NEGATIVE,
        distribution.standardUncertainty,
      );
      return 1;
    case 'rectangular':
    case 'triangular':
    case 'arcsine':
      demandLimits(distribution);
      return 1;
    case 'trapezoidal': {
      const top = distribution.topOverBase;
      demandLimits(distribution);
      demand(top >= 0 && top <= 1, kind, 'topOverBase between 0 and 1', top);
      return 1;
    }
    case 'curvilinearTrapezoid': {
      const { lower, upper, limitUncertainty: d } = distribution;
      demandLimits(distribution);
      demand(d >= 0 && d <= (upper - lower) / 2, kind, 'limitUncertainty from 0 to half of upper - lower', d);
      return 1;
    }
    case 'student':
      demand(finite(distribution.mean), kind, 'a finite mean', distribution.mean);
      demand(notNegative(distribution.scale), kind, 'a finite scale >= 0', distribution.scale);
      demand(
        positive(distribution.degreesOfFreedom),
        kind,
        'degreesOfFreedom > 0',
        distribution.degreesOfFreedom,
      );
      return 1;
    case 'gamma':
      demand(positive(distribution.shape), kind, 'shape > 0', distribution.shape);
      demand(positive(distribution.scale), kind, 'scale > 0', distribution.scale);
      return 1;
    case 'lognormal': {
      const { logMean, logStandardDeviation } = distribution;
      demand(finite(logMean), kind, 'a finite logMean', logMean);
      demand(
        notNegative(logStandardDeviation),
        kind,
        'a finite logStandardDeviation >= 0',
        logStandardDeviation,
      );
      return 1;
    }
    case 'multivariateNormal': {
      const { mean, covariance } = distribution;
      demandList(mean, finite, kind, 'finite means');
      demand(covariance.length === mean.length, kind, `${mean.length} rows of covariance`, covariance.length);
      for (let i = 0; i < mean.length; i++) {
        const row = covariance[i]!;
        demand(row.length === mean.length, kind, `${mean.length} columns in row ${i}`, row.length);
        demandList(row, finite, kind, `finite covariances in row ${i}`);
      }
      return mean.length;
    }
    case 'independentNormal': {
      const { mean, standardUncertainty } = distribution;
      demandList(mean, finite, kind, 'finite means');
      const given = standardUncertainty.length;
      demand(given === mean.length, kind, `${mean.length} standard uncertainties`, given);
      demandList(standardUncertainty, notNegative, kind, NOT_NEGATIVE);
      return mean.length;
    }
    case 'resampled': {
      const count = distribution.count ?? 1;
      demandList(distribution.values, finite, kind, 'finite values');
      demand(Number.isInteger(count) && count > 0, kind, 'count a whole number > 0', count);
      return count;
    }
  }
}

const NOT_NEGATIVE = 'a finite standardUncertainty >= 0';

function finite(value: number): boolean {
  return Number.isFinite(value);
}

function notNegative(value: number): boolean {
  return Number.isFinite(value) && value >= 0;
}

function positive(value: number): boolean {
  return Number.isFinite(value) && value > 0;
}

function demand(holds: boolean, kind: string, rule: string, got: number): void {
  if (!holds) throw new RangeError(`distribution '${kind}' requires ${rule}, got ${got}`);
}

function demandLimits(distribution: { kind: string; lower: number; upper: number }): void {
  const { kind, lower, upper } = distribution;
  demand(finite(lower), kind, 'a finite lower limit', lower);
  demand(finite(upper) && upper > lower, kind, `a finite upper limit above ${lower}`, upper);
}

function demandList(list: ArrayLike<number>, test: (v: number) => boolean, kind: string, rule: string): void {
  demand(list.length > 0, kind, 'at least 1 value', 0);
  for (let i = 0; i < list.length; i++) demand(test(list[i]!), kind, `${rule} (index ${i})`, list[i]!);
}
