import { normalCdf } from '../numeric/index.js';
import { gaussLegendre, integrate } from './integrate.js';
import { type MeasuredValue, measuredValue } from './measured.js';
import { normalPosterior } from './normalPosterior.js';
import { type Prior, panelEdges, priorShape } from './prior.js';
import type { ToleranceInterval } from './toleranceInterval.js';

/**
 * Probability that the true value of a quantity lies within its tolerance, given the measurement.
 *
 * With a value and standard uncertainty the normal distribution is used; with draws, the fraction of draws inside,
 * whose own standard error is sqrt(p (1 - p) / M). A prior is combined with the measurement by Bayes' rule.
 *
 * @param measured - value with standard uncertainty, or draws
 * @param tolerance - interval, open on a side that is left out
 * @param prior - knowledge from before the measurement; only with a value whose uncertainty is above 0
 * @returns probability from 0 to 1
 * @throws {RangeError} arguments out of range, or a prior together with draws
 *
 * Source: JCGM 106:2012, 7.2 to 7.4 (equations from memory).
 */
export function conformanceProbability(
  measured: MeasuredValue,
  tolerance: ToleranceInterval,
  prior?: Prior,
): number {
  const { value, standardUncertainty } = measuredValue(measured);
  if (prior !== undefined) {
    if ('samples' in measured || standardUncertainty === 0) {
      throw new RangeError('conformanceProbability requires a value with an uncertainty > 0 beside a prior');
    }
    return withPrior(value, standardUncertainty, tolerance, prior);
  }
  if ('samples' in measured) return fractionInside(measured.samples, tolerance);
  return normalInside(value, standardUncertainty, tolerance);
}

/** Probability of a normal distribution within an interval. */
export function normalInside(mean: number, standardDeviation: number, interval: ToleranceInterval): number {
  const { from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY } = interval;
  if (standardDeviation === 0) return mean >= from && mean <= to ? 1 : 0;
  const low = (from - mean) / standardDeviation;
  const high = (to - mean) / standardDeviation;
  if (high <= low) return 0;
  // In the upper tail both probabilities are close to 1: their mirror images keep the digits of the difference.
  return low > 0 ? normalCdf(-low) - normalCdf(-high) : normalCdf(high) - normalCdf(low);
}

function fractionInside(samples: ArrayLike<number>, interval: ToleranceInterval): number {
  const { from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY } = interval;
  return countBetween(samples, from, to) / samples.length;
}

function countBetween(samples: ArrayLike<number>, from: number, to: number): number {
  let inside = 0;
  for (let i = 0; i < samples.length; i++) if (samples[i]! >= from && samples[i]! <= to) inside++;
  return inside;
}

function withPrior(value: number, uncertainty: number, tolerance: ToleranceInterval, prior: Prior): number {
  if (prior.kind === 'normal') {
    const posterior = normalPosterior(prior, { value, standardUncertainty: uncertainty });
    return normalInside(posterior.value, posterior.standardUncertainty, tolerance);
  }
  const { from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY } = tolerance;
  const shape = priorShape(prior);
  const posterior = (x: number): number => shape(x) * Math.exp(-0.5 * ((x - value) / uncertainty) ** 2);
  const edges = panelEdges(prior, uncertainty, [from, to, value]);
  const rule = gaussLegendre(16);
  const whole = integrate(posterior, edges, rule);
  if (!(whole > 0)) {
    throw new RangeError(
      `conformanceProbability requires a prior that permits the measurement, got ${value}`,
    );
  }
  return (
    integrate(
      posterior,
      edges.filter((x) => x >= from && x <= to),
      rule,
    ) / whole
  );
}
