import { absent, isAbsent, type Quantity, quantity } from '../metrics/index.js';
import { describeProfile } from './describeProfile.js';
import { diskUncertainties } from './diskCovariance.js';
import { diskLimits } from './diskLimits.js';
import type { HaloDisk, HaloLimit, HaloMeasurement } from './haloMeasurement.js';
import type { HaloSetup } from './haloSetup.js';
import { type HaloUnits, surfaceMagnitudes } from './haloUnits.js';
import type { StarCentre } from './locateCentre.js';
import { ringNoise } from './maskPixels.js';
import { medianOf } from './medianOf.js';
import type { PolarGrid } from './polarGrid.js';
import type { DiskSearch } from './searchDisks.js';
import { PIXEL_HOT, PIXEL_NEIGHBOUR, PIXEL_SATURATED, PIXEL_UNDEFINED, type StarImage } from './starImage.js';

/** What a measurement of a star's image found, in pixels and counts. */
export interface HaloFindings {
  readonly image: StarImage;
  readonly setup: HaloSetup;
  readonly centre: StarCentre;
  readonly saturated: boolean;
  readonly core: number;
  readonly mask: Uint8Array;
  readonly grid: PolarGrid;
  readonly search: DiskSearch;
  readonly disks: readonly HaloDisk[];
  readonly draws: number;
  readonly notes: readonly string[];
}

/**
 * The record of a measurement from what was found.
 *
 * @param found - in pixels and counts
 * @param units - scale, star, pixel
 * @returns the record, upper limits and profile included
 */
export function describeMeasurement(found: HaloFindings, units: HaloUnits): HaloMeasurement {
  const { image, setup, centre, saturated, core, mask, grid, search, disks, draws } = found;
  const { scale, starCounts } = units;
  const notes = [...found.notes];
  const limits = limitsOf(search, units);
  if (limits.length === 0)
    notes.push('no disk could be told from the background and the wings in this image');
  const uncertainties = diskUncertainties(search.fit, search.misfit);
  const background = (k: number): Quantity =>
    Number.isFinite(uncertainties[k]!)
      ? quantity(search.fit.parameters[k]!, uncertainties[k]!)
      : absent('the fit does not tell it from the wings');
  const noise = ringNoise(grid);
  const table = search.table;
  const place = (value: number, uncertainty: number, axis: 0 | 1): Quantity =>
    Number.isFinite(uncertainty)
      ? quantity(value + image.offset[axis] + 1, uncertainty)
      : absent('too little of the star is free of saturation');
  const marks = new Int32Array(256);
  for (let k = 0; k < mask.length; k++) marks[mask[k]!]!++;
  const count = (bit: number): number =>
    marks.reduce((sum, number, mark) => sum + ((mark & bit) === 0 ? 0 : number), 0);
  return {
    image: setup.name,
    frame: image.frame,
    centre: {
      x: place(centre.x, centre.standardUncertaintyX, 0),
      y: place(centre.y, centre.standardUncertaintyY, 1),
      fromPixels: centre.fromPixels,
      toPixels: centre.toPixels,
    },
    coveredPixels: [
      table.radius[0]! - table.width[0]! / 2,
      table.radius[table.radius.length - 1]! + table.width[table.radius.length - 1]! / 2,
    ],
    saturated,
    arcsecPerPixel: scale,
    background: {
      counts: background(0),
      slopeX: background(1),
      slopeY: background(2),
      noise: farNoise(noise, table.ring),
    },
    masked: {
      undefined: count(PIXEL_UNDEFINED),
      saturated: count(PIXEL_SATURATED),
      hot: count(PIXEL_HOT),
      neighbours: count(PIXEL_NEIGHBOUR),
    },
    starCounts,
    wings: {
      method: setup.reference === undefined ? 'model' : 'reference',
      exponent: exponentOf(search),
      terms: search.terms,
      misfitShare: search.misfit.wingShare,
    },
    disks,
    detection: {
      level: Number.isFinite(search.level) ? search.level : absent('no disk could be looked for'),
      falseAlarm: setup.falseAlarm ?? 0.002,
    },
    limits,
    profile: describeProfile(grid, core, search, units),
    seedDraws: draws,
    notes,
  };
}

/** Upper limits in the user's units. */
function limitsOf(search: DiskSearch, units: HaloUnits): HaloLimit[] {
  const { starCounts } = units;
  return diskLimits(search, units.obstruction ?? 0).map((limit): HaloLimit => {
    const share = isAbsent(starCounts) ? starCounts : limit.flux / starCounts.value;
    const surface = surfaceMagnitudes(limit.surface, units);
    return {
      outerRadiusPixels: limit.outer,
      innerRadiusPixels: limit.inner,
      surfaceCounts: limit.surface,
      fluxCounts: limit.flux,
      shareOfStar: share,
      magnitudesFainter: typeof share === 'number' ? -2.5 * Math.log10(share) : share,
      surfaceMagnitudes: surface,
    };
  });
}

/** Noise of a pixel in the outer fifth of the rings used. */
function farNoise(noise: Float64Array, rings: Int32Array): number | { readonly absent: string } {
  const value = medianOf(Array.from(rings.subarray(Math.floor(rings.length * 0.8)), (ring) => noise[ring]!));
  return Number.isFinite(value) ? value : absent('too few pixels in each cell');
}

/** Power by which the wings fall between their innermost radius and three times that. */
function exponentOf(search: DiskSearch): number | { readonly absent: string } {
  const { table, fit } = search;
  const from = table.radius[0]!;
  const k = table.radius.findIndex((radius) => radius >= 3 * from);
  const ratio = fit.wingLight[0]! / fit.wingLight[Math.max(0, k)]!;
  if (k < 1 || !(ratio > 1)) return absent('the wings do not fall over the range measured');
  return Math.log(ratio) / Math.log(table.radius[k]! / from);
}
