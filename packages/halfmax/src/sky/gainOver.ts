import type { Quantity } from '../metrics/index.js';
import { summaryOf } from './summaryOf.js';

/**
 * Signal to noise of one filter over that of another in equal time.
 *
 * @param quality - trials of the square of signal to noise per second
 * @param other - the same of the other filter, as many trials
 * @returns ratio, with what both share in their trials cancelled, or why there is none
 * @throws {RangeError} trials of different length
 * Source: signal to noise goes with the root of quality times time.
 */
export function gainOver(quality: Float64Array, other: Float64Array): Quantity {
  if (quality.length !== other.length) {
    throw new RangeError(
      `gainOver requires as many trials of both, got ${quality.length} and ${other.length}`,
    );
  }
  return summaryOf(
    quality.map((value, k) => (other[k]! > 0 ? Math.sqrt(value / other[k]!) : Number.NaN)),
    'the other filter passes no light of the line',
  );
}
