import { bandKernel } from './bandKernel.js';
import type { BandMetrics, DescribeBandOptions } from './bandMetrics.js';
import { unmeasured } from './bandNotes.js';
import { planBand } from './bandPlan.js';
import { measureBand } from './measureBand.js';
import { isAbsent } from './quantity.js';
import type { BandRange, Curve } from './types.js';

/**
 * The numbers of a passband with their uncertainties from the noise of the pixels.
 *
 * Each number is, near the measured curve, a sum of weights times pixels; its uncertainty is the root of the
 * summed squares of weight times pixel uncertainty, so that what peak and crossings share is counted once.
 * Neither the wavelength scale nor the line spread is in it.
 *
 * @param curve - the curve
 * @param range - the band, from `findBands`
 * @param options - line spread and floor, where they are known
 * @returns the numbers, each with uncertainty or the reason why there is none
 * @throws {RangeError} a curve, range or floor that is not as described
 * Source: JCGM 100:2008, 5.1.2 for the propagation; definitions are common practice, no source.
 */
export function describeBand(curve: Curve, range: BandRange, options: DescribeBandOptions = {}): BandMetrics {
  const plan = planBand('describeBand', curve, range, options);
  const { floor } = options;
  if (typeof floor === 'object' && floor.length !== curve.wavelengthNm.length) {
    throw new RangeError(
      `describeBand requires a floor for ${curve.wavelengthNm.length} pixels, got ${floor.length}`,
    );
  }
  if (isAbsent(plan)) return unmeasured(plan.absent);
  const kernel = bandKernel(plan);
  const found = kernel.find(curve.transmittance);
  if (isAbsent(found)) return unmeasured(found.absent, plan);
  return measureBand(plan, kernel, found, floor ?? 0);
}
