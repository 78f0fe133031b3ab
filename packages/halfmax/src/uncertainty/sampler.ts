import type { RandomStream } from '../numeric/index.js';
import { covarianceFactor } from './covarianceFactor.js';
import type { Distribution } from './distribution.js';
import { distributionSize } from './distributionSize.js';
import { gammaVariate } from './gammaVariate.js';
import { normalVariates } from './normalVariates.js';

/** Draws from one distribution and writes the numbers into `x` from `offset` on. */
export type Sampler = (stream: RandomStream, x: Float64Array, offset: number) => void;

/**
 * A sampler of a distribution, with everything that does not change from draw to draw worked out beforehand.
 * It keeps nothing between draws: the same stream in the same state gives the same numbers.
 *
 * @param distribution - any kind
 * @returns function that makes one draw of the whole distribution
 * @throws {RangeError} parameters out of range, or a covariance that is not positive semidefinite
 *
 * Source: JCGM 101:2008, 6.4; the rule for each kind stands in the clause named beside it.
 */
export function sampler(distribution: Distribution): Sampler {
  const size = distributionSize(distribution);
  switch (distribution.kind) {
    case 'normal': {
      const { mean, standardUncertainty } = distribution; // 6.4.7
      return (stream, x, at) => {
        x[at] = mean + standardUncertainty * stream.normal();
      };
    }
    case 'rectangular': {
      const { lower, width } = span(distribution); // 6.4.2
      return (stream, x, at) => {
        x[at] = lower + width * stream.uniform();
      };
    }
    case 'triangular': {
      const { lower, width } = span(distribution); // 6.4.5
      return (stream, x, at) => {
        x[at] = lower + (width / 2) * (stream.uniform() + stream.uniform());
      };
    }
    case 'trapezoidal': {
      const { lower, width } = span(distribution); // 6.4.4
      const wide = 1 + distribution.topOverBase;
      const narrow = 1 - distribution.topOverBase;
      return (stream, x, at) => {
        x[at] = lower + (width / 2) * (wide * stream.uniform() + narrow * stream.uniform());
      };
    }
    case 'curvilinearTrapezoid': {
      const { lower, upper, limitUncertainty } = distribution; // 6.4.3
      return (stream, x, at) => {
        const left = lower - limitUncertainty + 2 * limitUncertainty * stream.uniform();
        const right = lower + upper - left;
        x[at] = left + (right - left) * stream.uniform();
      };
    }
    case 'arcsine': {
      const { lower, width } = span(distribution); // 6.4.6
      return (stream, x, at) => {
        x[at] = lower + (width / 2) * (1 + Math.sin(2 * Math.PI * stream.uniform()));
      };
    }
    case 'student': {
      const { mean, scale, degreesOfFreedom } = distribution; // 6.4.9: normal over root of chi-squared per degree
      return (stream, x, at) => {
        const chiSquared = 2 * gammaVariate(stream, degreesOfFreedom / 2);
        x[at] = mean + scale * stream.normal() * Math.sqrt(degreesOfFreedom / chiSquared);
      };
    }
    case 'gamma': {
      const { shape, scale } = distribution; // 6.4.11
      return (stream, x, at) => {
        x[at] = scale * gammaVariate(stream, shape);
      };
    }
    case 'lognormal': {
      const { logMean, logStandardDeviation } = distribution;
      return (stream, x, at) => {
        x[at] = Math.exp(logMean + logStandardDeviation * stream.normal());
      };
    }
    case 'independentNormal': {
      const mean = Float64Array.from(distribution.mean);
      const deviation = Float64Array.from(distribution.standardUncertainty);
      // Many at a time, such as the pixels of a band: worth the faster method.
      return (stream, x, at) => normalVariates(stream, mean, deviation, x, at);
    }
    case 'multivariateNormal': {
      const mean = Float64Array.from(distribution.mean); // 6.4.8
      // The lower triangle, row after row.
      const rows = covarianceFactor(distribution.covariance);
      const factor = Float64Array.from(rows.flatMap((row, i) => Array.from(row.subarray(0, i + 1))));
      return (stream, x, at) => {
        for (let i = 0; i < size; i++) x[at + i] = stream.normal();
        // From the last row up, so that the normal numbers a row needs are still in their places.
        let row = factor.length;
        for (let i = size - 1; i >= 0; i--) {
          row -= i + 1;
          let sum = mean[i]!;
          for (let j = 0; j <= i; j++) sum += factor[row + j]! * x[at + j]!;
          x[at + i] = sum;
        }
      };
    }
    case 'resampled': {
      const values = Float64Array.from(distribution.values);
      return (stream, x, at) => {
        for (let i = 0; i < size; i++) x[at + i] = values[Math.floor(values.length * stream.uniform())]!;
      };
    }
  }
}

function span(distribution: { lower: number; upper: number }): { lower: number; width: number } {
  return { lower: distribution.lower, width: distribution.upper - distribution.lower };
}
