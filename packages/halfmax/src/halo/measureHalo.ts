import { refuse } from '../errors.js';
import { absent, isAbsent, type Quantity } from '../metrics/index.js';
import type { RandomStream } from '../numeric/index.js';
import { bootstrapDisks } from './bootstrapDisks.js';
import { describeDisk } from './describeDisk.js';
import { describeMeasurement } from './describeMeasurement.js';
import { findStar } from './findStar.js';
import type { HaloMeasurement } from './haloMeasurement.js';
import { type HaloSetup, requireHaloSetup } from './haloSetup.js';
import { locateCentre } from './locateCentre.js';
import { maskOutliers, maskSaturated } from './maskPixels.js';
import { type PolarGrid, polarGrid } from './polarGrid.js';
import { ringEdges } from './ringEdges.js';
import { ringTable } from './ringTable.js';
import { type DiskSearch, searchDisks } from './searchDisks.js';
import type { StarImage } from './starImage.js';
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
/** Of an image with more pixels than this, one row of four will do to see what is not of the star. */
const LARGE = 4_000_000;

/**
 * Measures the halos about a bright star.
 *
 * @param image - picture of the star, or a cut-out
 * @param setup - what is known of it
 * @param stream - random numbers of the bootstrap and of the false-alarm level
 * @returns centre, background, profile, disks with 95 % intervals, upper limits
 * @throws {BadInputError} no star, one at the edge, an image too small, empty or full
 * @throws {RangeError} setup values out of range
 * @throws {Error} a machine without vectors in WebAssembly
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
  const room = new Float32Array(image.counts.length);
  const rowStep = image.counts.length > LARGE ? 4 : 1;
  let grid = polarGrid(image, saturatedMask, centre, edges, SECTORS, room, rowStep);
  let core = coreRadius(image, saturatedMask, centre, found.saturatedRadius);
  const plane = ringTable(grid, core).plane;
  const mask = maskOutliers(image, saturatedMask, grid, plane, core);
  centre = locateCentre(image, mask, centre, found.saturatedRadius, plane);
  core = coreRadius(image, mask, centre, found.saturatedRadius);
  grid = polarGrid(image, mask, centre, edges, SECTORS, room);
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
  const measurement = describeMeasurement(
    { image, setup, centre, saturated, core, mask, grid, search, disks, draws, notes },
    units,
  );
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
