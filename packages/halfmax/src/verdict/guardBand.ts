import { normalQuantile } from '../numeric/index.js';

/** How wide a guard band is to be: a multiple of the expanded uncertainty, or a largest risk. */
export type GuardBandRequest =
  /** Width r U, with U = coverageFactor x standard uncertainty. @default coverageFactor 2 */
  | { readonly multiple: number; readonly coverageFactor?: number }
  /** Largest probability that an item with a measured value on the acceptance limit does not conform. */
  | { readonly maximumRisk: number };

/**
 * Width of the guard band between a tolerance limit and the acceptance limit.
 *
 * @param standardUncertainty - of the measurement, 0 or more
 * @param request - multiple of the expanded uncertainty, or largest risk at the limit (0 to 1 exclusive; one limit,
 *   normal errors)
 * @returns width in the unit of the uncertainty; greater than 0 narrows the acceptance interval
 * @throws {RangeError} arguments out of range
 *
 * Source: JCGM 106:2012, 8.3.2 (w = r U); ISO 14253-1 takes r = 1.
 * @example
 * guardBand(0.5, { multiple: 1 }); // => 1
 */
export function guardBand(standardUncertainty: number, request: GuardBandRequest): number {
  if (!(Number.isFinite(standardUncertainty) && standardUncertainty >= 0)) {
    throw new RangeError(`guardBand requires standardUncertainty >= 0, got ${standardUncertainty}`);
  }
  if ('maximumRisk' in request) {
    const { maximumRisk } = request;
    if (!(maximumRisk > 0 && maximumRisk < 1)) {
      throw new RangeError(`guardBand requires maximumRisk between 0 and 1, got ${maximumRisk}`);
    }
    return -normalQuantile(maximumRisk) * standardUncertainty;
  }
  const { multiple, coverageFactor = 2 } = request;
  if (!Number.isFinite(multiple))
    throw new RangeError(`guardBand requires a finite multiple, got ${multiple}`);
  if (!(Number.isFinite(coverageFactor) && coverageFactor > 0)) {
    throw new RangeError(`guardBand requires coverageFactor > 0, got ${coverageFactor}`);
  }
  return multiple * coverageFactor * standardUncertainty;
}
