import { normalQuantile, studentQuantile } from '../numeric/index.js';

/**
 * Coverage interval of the first-order law: value plus and minus a multiple of the standard uncertainty.
 *
 * @param value - estimate
 * @param standardUncertainty - same unit, 0 or more
 * @param coverage - probability between 0 and 1 exclusive
 * @param degreesOfFreedom - effective degrees of freedom, cut to a whole number; left out: a normal distribution
 * @returns end points in the unit of the value
 * @throws {RangeError} arguments out of range
 *
 * Source: JCGM 100:2008, G.3 and G.6.4.
 */
export function linearInterval(
  value: number,
  standardUncertainty: number,
  coverage: number,
  degreesOfFreedom: number = Number.POSITIVE_INFINITY,
): readonly [low: number, high: number] {
  if (!(standardUncertainty >= 0)) {
    throw new RangeError(`linearInterval requires standardUncertainty >= 0, got ${standardUncertainty}`);
  }
  if (!(coverage > 0 && coverage < 1)) {
    throw new RangeError(`linearInterval requires coverage between 0 and 1, got ${coverage}`);
  }
  if (!(degreesOfFreedom >= 1)) {
    throw new RangeError(`linearInterval requires degreesOfFreedom >= 1, got ${degreesOfFreedom}`);
  }
  const p = (1 + coverage) / 2;
  const k = Number.isFinite(degreesOfFreedom)
    ? studentQuantile(p, Math.floor(degreesOfFreedom))
    : normalQuantile(p);
  return [value - k * standardUncertainty, value + k * standardUncertainty];
}
