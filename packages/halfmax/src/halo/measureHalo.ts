import { refuse } from '../errors.js';
import { absent, isAbsent, type Quantity, quantity } from '../metrics/index.js';
import type { RandomStream } from '../numeric/index.js';
import { bootstrapDisks } from './bootstrapDisks.js';
import { describeDisk } from './describeDisk.js';
import { describeProfile } from './describeProfile.js';
import { diskUncertainties } from './diskCovariance.js';
import { diskLimits } from './diskLimits.js';
import { findStar } from './findStar.js';
import type { HaloLimit, HaloMeasurement } from './haloMeasurement.js';
import { type HaloSetup, requireHaloSetup } from './haloSetup.js';
import { surfaceMagnitudes } from './haloUnits.js';
import { locateCentre } from './locateCentre.js';
import { maskOutliers, maskSaturated, ringNoise } from './maskPixels.js';
import { medianOf } from './medianOf.js';
import { type PolarGrid, polarGrid } from './polarGrid.js';
import { ringEdges } from './ringEdges.js';
import { ringTable } from './ringTable.js';
import { type DiskSearch, searchDisks } from './searchDisks.js';
import { PIXEL_HOT, PIXEL_NEIGHBOUR, PIXEL_SATURATED, PIXEL_UNDEFINED, type StarImage } from './starImage.js';
import { coreRadius, requireRoom, ringReach, starLight } from './starRoom.js';
import type { ReferenceProfile } from './wings.js';

/** A measurement, and the arrays behind it for comparisons and pictures. */
export interface HaloResult {
  readonly measurement: HaloMeasurement;
  readonly workings: {
    readonly mask: Uint8Array;
    readonly grid: PolarGrid;
    readonly search: DiskSearch;
    readonly starCounts: Quantity;
  };
}

const SECTORS = 36;

/**
 * Measures the halos about a bright star.
 *
 * @param image - picture of the star, or a cut-out
 * @param setup - what is known of it
 * @param stream - random numbers of the bootstrap and of the false-alarm level
 * @returns centre, background, profile, disks with 95 % intervals, upper limits
 * @throws {BadInputError} no star, one at the edge, an image too small, empty or full
 * @throws {RangeError} setup values out of range
 */
export function measureHalo(image: StarImage, setup: HaloSetup, stream: RandomStream): HaloResult {
  requireHaloSetup(setup);
  const notes: string[] = [];
  const { name } = setup;
  const found = findStar(image, setup.saturationCounts, name, setup.near);
  const saturatedMask = maskSaturated(image, setup.saturationCounts);
  const saturated = found.saturatedRadius > 0;
  let centre = locateCentre(image, saturatedMask, found.place, found.saturatedRadius);
  requireRoom(image, centre, found.place, found.saturatedRadius, name);
  const outer = ringReach(image, centre, setup, notes);
  const edges = ringEdges(outer);
  let grid = polarGrid(image, saturatedMask, centre, edges, SECTORS);
  let core = coreRadius(image, saturatedMask, centre, found.saturatedRadius);
  const plane = ringTable(grid, core).plane;
  const mask = maskOutliers(image, saturatedMask, grid, plane, core);
  centre = locateCentre(image, mask, centre, found.saturatedRadius, plane);
  core = coreRadius(image, mask, centre, found.saturatedRadius);
  grid = polarGrid(image, mask, centre, edges, SECTORS);
  const search = searchDisks(
    grid,
    core,
    {
      blur: setup.edgeBlurPixels ?? 1.5,
      falseAlarm: setup.falseAlarm ?? 0.002,
      mostDisks: setup.mostDisks ?? 5,
      ...(setup.obstruction === undefined || setup.obstruction === 0 ? {} : { hole: setup.obstruction }),
      ...(setup.reference === undefined ? {} : { reference: setup.reference }),
    },
    stream,
  );
  if (search === null) {
    refuse(
      name,
      '',
      `leaves too little of the star’s surroundings free beyond ${core.toFixed(0)} pixels`,
      'give an image that reaches further, or a shorter exposure',
    );
  }
  const scale =
    setup.focalLengthMm === undefined
      ? absent('the focal length is not given')
      : (setup.pixelSizeUm / setup.focalLengthMm) * (648 / Math.PI);
  const starCounts = starLight(image, mask, centre, saturated, setup);
  const draws = setup.draws ?? 1000;
  const units = { scale, starCounts, pixelSizeUm: setup.pixelSizeUm, obstruction: setup.obstruction };
  const numbers = bootstrapDisks(search.fit, search.misfit, draws, stream);
  const disks = numbers
    .map((one, d) => describeDisk(one, search, d, centre, units))
    .sort((a, b) =>
      isAbsent(a.fluxCounts) || isAbsent(b.fluxCounts) ? 0 : b.fluxCounts.value - a.fluxCounts.value,
    );
  const limits = diskLimits(search, setup.obstruction ?? 0).map((limit): HaloLimit => {
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
  const count = (bit: number): number => {
    let sum = 0;
    for (let k = 0; k < mask.length; k++) if ((mask[k]! & bit) !== 0) sum++;
    return sum;
  };
  const measurement: HaloMeasurement = {
    image: name,
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
  return { measurement, workings: { mask, grid, search, starCounts } };
}

/**
 * Profile of a star without the filter, or with another one, to take the wings from.
 *
 * @param result - measurement of the reference frame
 * @returns its light by radius without background and slope; disks found in it stay in: they are not the filter's
 */
export function wingReference(result: HaloResult): ReferenceProfile {
  const { search, grid } = result.workings;
  const table = ringTable(grid, search.table.radius[0]! - search.table.width[0]! / 2);
  const level = search.fit.parameters[0]!;
  return {
    radius: table.radius,
    counts: table.mean.map((value) => value - level),
    variance: table.meanVariance,
  };
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
