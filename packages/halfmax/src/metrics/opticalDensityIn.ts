import { blockingOver } from './blockingOver.js';
import type { Blocking, BlockingOptions } from './blockingTypes.js';
import { requireCurve } from './requireCurve.js';
import type { Curve } from './types.js';

/**
 * Optical density between two wavelengths, as far as noise and stray light let it be seen.
 *
 * The mean transmittance is weighted by the width of the pixels. Its floor falls with the root of the number of
 * pixels, but never below the stray-light limit, since stray light does not average out. Where the mean does not stand above
 * both, only a lower limit of the optical density is given; where it does, up to the stray-light limit of it may
 * not have passed the filter, which is counted in the uncertainty.
 *
 * @param curve - at least 5 pixels
 * @param fromNm - air, nm
 * @param toNm - air, nm, above `fromNm`
 * @param options - floor and stray light
 * @returns mean and worst optical density with the range in which blocking was seen
 * @throws {RangeError} a curve, range or option that is not as described
 * Source: stray light of single monochromators: ASTM E387, introduction and note 2. Cost: O(n).
 */
export function opticalDensityIn(
  curve: Curve,
  fromNm: number,
  toNm: number,
  options: BlockingOptions = {},
): Blocking {
  requireCurve('opticalDensityIn', curve, 5);
  if (!(toNm > fromNm))
    throw new RangeError(`opticalDensityIn requires toNm above fromNm, got ${fromNm} and ${toNm}`);
  return blockingOver(curve, [[fromNm, toNm]], options);
}
