import { normalQuantile } from '../numeric/index.js';
import type { Absent, Measured } from './types.js';

/** Half-width of the central 95 % of a normal distribution, in standard deviations. */
export const normal95: number = normalQuantile(0.975);

/**
 * A number with its standard uncertainty and the normal 95 % interval.
 *
 * @param value - the number
 * @param standardUncertainty - same unit, 0 or more
 * @returns value, uncertainty and value ± 1.96 uncertainties
 * @throws {RangeError} a value or uncertainty that is not finite, or a negative uncertainty
 * @example
 * quantity(7, 0).interval95; // => [7, 7]
 */
export function quantity(value: number, standardUncertainty: number): Measured {
  if (!Number.isFinite(value)) throw new RangeError(`quantity requires a finite value, got ${value}`);
  if (!(standardUncertainty >= 0 && standardUncertainty < Infinity)) {
    throw new RangeError(`quantity requires an uncertainty of 0 or more, got ${standardUncertainty}`);
  }
  const reach = normal95 * standardUncertainty;
  return { value, standardUncertainty, interval95: [value - reach, value + reach] };
}

/**
 * No number, and the reason.
 *
 * @param why - the reason, a phrase that a reader understands
 * @returns the reason as a result
 * @example
 * absent('the band runs off the scan'); // => { absent: 'the band runs off the scan' }
 */
export function absent(why: string): Absent {
  return { absent: why };
}

/**
 * Whether a result is a reason instead of a number.
 *
 * @param result - a quantity or any other result that may be absent
 * @returns true where there is no number
 * @example
 * isAbsent(absent('no band')); // => true
 */
export function isAbsent<T extends object>(result: T | Absent): result is Absent {
  return 'absent' in result;
}
