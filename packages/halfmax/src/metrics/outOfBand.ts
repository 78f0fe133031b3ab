import { footEnd, wayOut } from './bandFoot.js';
import { blockingOver } from './blockingOver.js';
import type { Blocking, BlockingOptions, OpticalDensity, PlacedOpticalDensity } from './blockingTypes.js';
import { findLeaks, type Leak, pixelsOf, type Stretch } from './findLeaks.js';
import { pixelFloors } from './pixelFloors.js';
import { requireCurve } from './requireCurve.js';
import { trustedPixels } from './trustedPixels.js';
import type { BandRange, Curve } from './types.js';

/** What counts as out of band. */
export interface OutOfBandOptions extends BlockingOptions {
  /** Ranges to report. @default the scan outside the bands: blue side, between bands, red side */
  readonly ranges?: readonly { readonly name: string; readonly fromNm: number; readonly toNm: number }[];
  /**
   * A band is left out up to so many of its FWHM from its centre at least, and with its foot up to twice as many.
   * @default 2
   */
  readonly widthsFromCentre?: number;
  /** Standard uncertainties by which each pixel of a leak stands out. @default 3 */
  readonly leakSigma?: number;
}

/** The foot of a band is left out no further than this multiple of what is left out in any case. */
const furthestFoot = 2;

/** Blocking outside the passbands. */
export interface OutOfBand {
  /** Over everything out of band that was seen. */
  readonly meanOpticalDensity: OpticalDensity;
  readonly worstOpticalDensity: PlacedOpticalDensity;
  /** First and last wavelength where blocking was seen: nothing is known beyond. */
  readonly seenFromNm: number | null;
  readonly seenToNm: number | null;
  readonly limit: Blocking['limit'];
  readonly ranges: readonly (Blocking & { readonly name: string })[];
  readonly leaks: readonly Leak[];
  /** What was taken as out of band. */
  readonly rule: string;
}

/**
 * Blocking outside the passbands of a curve, as far as noise and stray light let it be seen.
 *
 * A passband is left out with its feet: up to where the curve, falling away from the band, has come down to noise and
 * stray light or falls no further, but not beyond twice `widthsFromCentre`. Leaks are looked for from
 * `widthsFromCentre` on; light that only falls away from a band is none.
 *
 * @param curve - at least 5 pixels
 * @param bands - the passbands, from `findBands`
 * @param options - ranges, floor, stray light
 * @returns mean and worst optical density over all, per range, and the leaks
 * @throws {RangeError} a curve, range or option that is not as described
 * Source: stray light of single monochromators: ASTM E387, introduction and note 2. Cost: O(n).
 */
export function outOfBand(
  curve: Curve,
  bands: readonly BandRange[],
  options: OutOfBandOptions = {},
): OutOfBand {
  requireCurve('outOfBand', curve, 5);
  const { widthsFromCentre = 2 } = options;
  if (!(widthsFromCentre >= 0.5)) {
    throw new RangeError(`outOfBand requires widthsFromCentre of 0.5 or more, got ${widthsFromCentre}`);
  }
  const scan: [number, number] = [curve.wavelengthNm[0]!, curve.wavelengthNm[curve.wavelengthNm.length - 1]!];
  const least = bands.map((band) => bandReach(band, widthsFromCentre)).sort((a, b) => a[0] - b[0]);
  const beside = outside(scan, least).map(
    ([fromNm, toNm]): Stretch => ({
      fromNm,
      toNm,
      afterBand: least.some(([, high]) => high === fromNm),
      beforeBand: least.some(([low]) => low === toNm),
    }),
  );
  const feet = feetOf(curve, bands, widthsFromCentre, beside, options);
  const inBand = [...least, ...feet].sort((a, b) => a[0] - b[0]);
  const stretches = outside(scan, inBand);
  const named =
    options.ranges?.map((range) => {
      if (!(range.toNm > range.fromNm)) {
        throw new RangeError(`outOfBand requires toNm above fromNm, got ${range.fromNm} and ${range.toNm}`);
      }
      return { ...range, parts: outside([range.fromNm, range.toNm], inBand) };
    }) ??
    stretches.map((stretch) => ({
      name: nameOf(stretch, bands),
      fromNm: stretch[0],
      toNm: stretch[1],
      parts: [stretch],
    }));
  const total = blockingOver(curve, stretches, options);
  return {
    meanOpticalDensity: total.meanOpticalDensity,
    worstOpticalDensity: total.worstOpticalDensity,
    seenFromNm: total.seenFromNm,
    seenToNm: total.seenToNm,
    limit: total.limit,
    ranges: named.map(({ name, fromNm, toNm, parts }) => ({
      ...blockingOver(curve, parts, options),
      fromNm,
      toNm,
      name,
    })),
    leaks: findLeaks(curve, beside, options),
    rule:
      `out of band is the scan further than ${widthsFromCentre} FWHM from the centre of each passband and beyond its ` +
      'feet: a foot ends where the curve has come down to noise and stray light or falls no further, at the latest ' +
      `${furthestFoot * widthsFromCentre} FWHM from the centre; a leak rises above the lowest level between it and the band`,
  };
}

/** A band that is cut by the scan is taken to go on as far beyond as it is seen inside. */
function bandReach(band: BandRange, widths: number): [number, number] {
  const width = band.redNm - band.blueNm;
  const centre = (band.redNm + band.blueNm) / 2;
  const blue = band.truncated === 'start' || band.truncated === 'both' ? -Infinity : centre - widths * width;
  const red = band.truncated === 'end' || band.truncated === 'both' ? Infinity : centre + widths * width;
  return [blue, red];
}

/** The feet of the bands beside what is left out in any case. */
function feetOf(
  curve: Curve,
  bands: readonly BandRange[],
  widths: number,
  beside: readonly Stretch[],
  options: BlockingOptions,
): [number, number][] {
  const { wavelengthNm } = curve;
  const trust = trustedPixels(curve);
  const limits = pixelFloors(curve, options.floor);
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

function outside(
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

function nameOf(stretch: readonly [number, number], bands: readonly BandRange[]): string {
  const middle = (stretch[0] + stretch[1]) / 2;
  const bluer = bands.filter((band) => band.peakNm < middle).length;
  if (bands.length === 0) return 'whole scan';
  return bluer === 0 ? 'blue side' : bluer === bands.length ? 'red side' : 'between bands';
}
