import { acceptanceInterval } from './acceptanceInterval.js';
import { globalRisk, type Inspection } from './globalRisk.js';

/**
 * Width of the guard band that brings the global consumer's risk of an inspection down (or up) to a wanted value.
 *
 * @param inspection - prior, uncertainty and tolerance
 * @param consumerRisk - wanted probability that an item is accepted and does not conform
 * @returns width in the unit of the tolerance, below 0 where the acceptance interval may be wider than the tolerance;
 *   or why no width within 10 standard uncertainties reaches the risk
 * @throws {RangeError} arguments out of range, or a tolerance open on both sides
 *
 * Source: JCGM 106:2012, 9.5.4 (wanted risk); bisection.
 */
export function guardBandForRisk(
  inspection: Omit<Inspection, 'acceptance'>,
  consumerRisk: number,
): { readonly width: number } | { readonly absent: string } {
  const { tolerance, standardUncertainty: u } = inspection;
  if (!(consumerRisk > 0 && consumerRisk < 1)) {
    throw new RangeError(`guardBandForRisk requires consumerRisk between 0 and 1, got ${consumerRisk}`);
  }
  if (tolerance.from === undefined && tolerance.to === undefined) {
    throw new RangeError('guardBandForRisk requires a tolerance with a limit, got none');
  }
  const half =
    ((tolerance.to ?? Number.POSITIVE_INFINITY) - (tolerance.from ?? Number.NEGATIVE_INFINITY)) / 2;
  const excess = (width: number): number => {
    const acceptance = acceptanceInterval(tolerance, width);
    const risk = 'absent' in acceptance ? 0 : globalRisk({ ...inspection, acceptance }).consumerRisk;
    return risk - consumerRisk;
  };
  let low = -10 * u;
  let high = Math.min(10 * u, half);
  if (excess(low) < 0) return { absent: 'even without inspection the risk is smaller than the one wanted' };
  if (excess(high) > 0)
    return { absent: 'no guard band within 10 standard uncertainties makes the risk so small' };
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return { width: (low + high) / 2 };
}
