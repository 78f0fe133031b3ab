import { bandKernel } from './bandKernel.js';
import { planBand } from './bandPlan.js';
import { isAbsent } from './quantity.js';
import type { BandOptions, BandRange, Curve } from './types.js';

/** Reads one band many times. */
export interface CrossingReader {
  /** First pixel that the numbers depend on, and the one after the last. */
  readonly firstPixel: number;
  readonly endPixel: number;
  /**
   * From finite transmittances: writes height and place of the peak, blue and red crossing (in this order) into `out`;
   * false where there are none.
   */
  readonly read: (transmittance: Float64Array, out: Float64Array) => boolean;
}

/**
 * The numbers of `halfCrossingsOf`, for a Monte Carlo: a call makes nothing anew, and maxima are had in closed form,
 * which changes a height by some 1e-7 at most.
 *
 * @param curve - wavelengths, uncertainties and the transmittances that settle the windows
 * @param range - the band, from `findBands`
 * @param options - the line spread, where it is known
 * @returns the reader; places in air nm, height as a fraction
 * @throws {RangeError} a curve or range that is not as described
 * Cost: some milliseconds once, then a few microseconds a call.
 */
export function crossingReader(curve: Curve, range: BandRange, options: BandOptions = {}): CrossingReader {
  const plan = planBand('crossingReader', curve, range, options);
  if (isAbsent(plan)) return { firstPixel: 0, endPixel: 0, read: () => false };
  const { firstPixel, endPixel, quick } = bandKernel(plan);
  return { firstPixel, endPixel, read: quick };
}
