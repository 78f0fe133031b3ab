import { footEnd, wayOut } from './bandFoot.js';
import type { BlockingOptions } from './blockingTypes.js';
import { pixelsOf, type Stretch } from './findLeaks.js';
import { pixelFloors } from './pixelFloors.js';
import { trustedPixels } from './trustedPixels.js';
import type { BandRange, Curve } from './types.js';

/** The foot of a band is left out no further than this multiple of what is left out in any case. */
export const furthestFoot: number = 2;

/** A band that is cut by the scan is taken to go on as far beyond as it is seen inside. */
export function bandReach(band: BandRange, widths: number): [number, number] {
  const width = band.redNm - band.blueNm;
  const centre = (band.redNm + band.blueNm) / 2;
  const blue = band.truncated === 'start' || band.truncated === 'both' ? -Infinity : centre - widths * width;
  const red = band.truncated === 'end' || band.truncated === 'both' ? Infinity : centre + widths * width;
  return [blue, red];
}

/** The feet of the bands beside what is left out in any case. */
export function feetOf(
  curve: Curve,
  bands: readonly BandRange[],
  widths: number,
  beside: readonly Stretch[],
  options: BlockingOptions,
): [number, number][] {
  const { wavelengthNm } = curve;
  const trust = trustedPixels(curve);
  const limits = pixelFloors(curve, options);
  const feet: [number, number][] = [];
  for (const band of bands) {
    const [low, high] = bandReach(band, widths);
    const [lowest, highest] = bandReach(band, furthestFoot * widths);
    for (const stretch of beside) {
      const [first, last] = pixelsOf(curve, stretch);
      if (last < first) continue;
      if (stretch.fromNm === high) {
        const end = endOf(first, last);
        if (end !== first) feet.push([high, Math.min(end === null ? Infinity : wavelengthNm[end]!, highest)]);
      }
      if (stretch.toNm === low) {
        const end = endOf(last, first);
        if (end !== last) feet.push([Math.max(end === null ? -Infinity : wavelengthNm[end]!, lowest), low]);
      }
    }
  }
  return feet;

  function endOf(start: number, end: number): number | null {
    return footEnd(wayOut(curve, trust, start, end), limits, options.strayLight ?? 1e-3);
  }
}

/** What of a whole is outside the zones, which are sorted by their start. */
export function outside(
  whole: readonly [number, number],
  inBand: readonly (readonly [number, number])[],
): [number, number][] {
  const result: [number, number][] = [];
  let from = whole[0];
  for (const [low, high] of inBand) {
    if (Math.min(low, whole[1]) > from) result.push([from, Math.min(low, whole[1])]);
    from = Math.max(from, high);
  }
  if (whole[1] > from) result.push([from, whole[1]]);
  return result;
}
