import { normalInside } from './conformanceProbability.js';
import { gaussLegendre, integrate } from './integrate.js';
import { type Prior, panelEdges, priorShape } from './prior.js';
import type { ToleranceInterval } from './toleranceInterval.js';

/** A production line and the way its items are judged. */
export interface Inspection {
  /** Spread of the items' true values. */
  readonly prior: Prior;
  /** Of one measurement, above 0; errors are normal and do not depend on the item. */
  readonly standardUncertainty: number;
  readonly tolerance: ToleranceInterval;
  /** Measured values that are accepted. */
  readonly acceptance: ToleranceInterval;
}

/** Risks over the whole production, before any item is measured. */
export interface GlobalRisk {
  /** Fraction of items that conform. */
  readonly conforming: number;
  /** Probability that an item is accepted and does not conform. */
  readonly consumerRisk: number;
  /** Probability that an item is rejected though it conforms. */
  readonly producerRisk: number;
}

/**
 * Global risks of an inspection: integrals over the true value of the prior density times the probability that the
 * measured value falls inside, or outside, the acceptance interval.
 *
 * @param inspection - prior, uncertainty, tolerance and acceptance
 * @returns probabilities from 0 to 1
 * @throws {RangeError} arguments out of range
 *
 * Source: JCGM 106:2012, 9.4 and 9.5. Gauss-Legendre, 16 points a panel.
 */
export function globalRisk(inspection: Inspection): GlobalRisk {
  const { prior, standardUncertainty: u, tolerance, acceptance } = inspection;
  if (!(Number.isFinite(u) && u > 0))
    throw new RangeError(`globalRisk requires standardUncertainty > 0, got ${u}`);
  const { from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY } = tolerance;
  const density = priorShape(prior);
  const rule = gaussLegendre(16);
  const turns = [from, to, acceptance.from ?? from, acceptance.to ?? to];
  const edges = panelEdges(prior, u, turns);
  const inside = edges.filter((x) => x >= from && x <= to);
  const accepted = (x: number): number => density(x) * normalInside(x, u, acceptance);
  const rejected = (x: number): number => density(x) * outside(x, u, acceptance);
  const over = (f: (x: number) => number, ends: number[]): number => integrate(f, ends, rule);
  const whole = over(density, edges);
  const below = edges.filter((x) => x <= from);
  const above = edges.filter((x) => x >= to);
  return {
    conforming: over(density, inside) / whole,
    consumerRisk: (over(accepted, below) + over(accepted, above)) / whole,
    producerRisk: over(rejected, inside) / whole,
  };
}

function outside(mean: number, u: number, { from, to }: ToleranceInterval): number {
  if (from !== undefined && to !== undefined && from > to) return 1;
  const low = from === undefined ? 0 : normalInside(mean, u, { to: from });
  const high = to === undefined ? 0 : normalInside(mean, u, { from: to });
  return low + high;
}
