import { bandReach, feetOf, furthestFoot, outside } from './bandZones.js';
import { blockingOver } from './blockingOver.js';
import type { Blocking, BlockingOptions, OpticalDensity, PlacedOpticalDensity } from './blockingTypes.js';
import { findLeaks, type Leak, type Stretch } from './findLeaks.js';
import { requireCurve } from './requireCurve.js';
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

function nameOf(stretch: readonly [number, number], bands: readonly BandRange[]): string {
  const middle = (stretch[0] + stretch[1]) / 2;
  const bluer = bands.filter((band) => band.peakNm < middle).length;
  if (bands.length === 0) return 'whole scan';
  return bluer === 0 ? 'blue side' : bluer === bands.length ? 'red side' : 'between bands';
}
