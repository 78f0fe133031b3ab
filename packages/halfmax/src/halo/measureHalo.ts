import { refuse } from '../errors.js';
import { absent, isAbsent, type Measured, type Quantity, quantity } from '../metrics/index.js';
import type { RandomStream } from '../numeric/index.js';
import { bootstrapDisks, type DiskNumbers } from './bootstrapDisks.js';
import { diskUncertainties } from './diskCovariance.js';
import { diskLimits } from './diskLimits.js';
import { findStar } from './findStar.js';
import type { HaloDisk, HaloLimit, HaloMeasurement, ProfileRing } from './haloMeasurement.js';
import { hiddenRadius, locateCentre, type StarCentre } from './locateCentre.js';
import { maskOutliers, maskSaturated, ringNoise } from './maskPixels.js';
import { medianOf } from './medianOf.js';
import { type PolarGrid, polarGrid } from './polarGrid.js';
import { ringEdges } from './ringEdges.js';
import { ringTable } from './ringTable.js';
import { type DiskSearch, searchDisks } from './searchDisks.js';
import { apertureSum, type StarFlux } from './starFlux.js';
import {
  PIXEL_HOT,
  PIXEL_NEIGHBOUR,
  PIXEL_SATURATED,
  PIXEL_UNDEFINED,
  type Place,
  type StarImage,
} from './starImage.js';
import type { ReferenceProfile } from './wings.js';

/** What is known of an image of a star. */
export interface HaloSetup {
  /** Of the image, for messages. */
  readonly name: string;
  readonly pixelSizeUm: number;
  readonly fNumber: number;
  readonly saturationCounts: number;
  /** For arcseconds; left out: none are given. */
  readonly focalLengthMm?: number;
  /** Central obstruction as a share of the aperture's diameter, 0 to below 1. */
  readonly obstruction?: number;
  /** Light of the star in this exposure; left out: measured where the star is not saturated. */
  readonly star?: StarFlux;
  /** Wings from another frame, see `wingReference`; left out: modelled. */
  readonly reference?: ReferenceProfile;
  /** Where the star is, roughly, pixels of the image from (0, 0); left out: the brightest. */
  readonly near?: Place;
  /** How far from the star to look, pixels; left out: as far as the image goes. */
  readonly outerRadiusPixels?: number;
  /** Standard deviation of the disks' edges, pixels; left out: 1.5. */
  readonly edgeBlurPixels?: number;
  /** Probability of naming a disk where there is none; left out: 0.002. */
  readonly falseAlarm?: number;
  /** Draws of the bootstrap; left out: 1000. */
  readonly draws?: number;
  /** Left out: 5. */
  readonly mostDisks?: number;
}

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
const LEAST_REACH = 24;

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
  requireSetup(setup);
  const notes: string[] = [];
  const { name } = setup;
  const found = findStar(image, setup.saturationCounts, name, setup.near);
  const saturatedMask = maskSaturated(image, setup.saturationCounts);
  const saturated = found.saturatedRadius > 0;
  let centre = locateCentre(image, saturatedMask, found.place, found.saturatedRadius);
  requireRoom(image, centre, found.place, found.saturatedRadius, name);
  const outer = reachOf(image, centre, setup, notes);
  const edges = ringEdges(outer);
  let grid = polarGrid(image, saturatedMask, centre, edges, SECTORS);
  let core = coreOf(image, saturatedMask, centre, found.saturatedRadius);
  const plane = ringTable(grid, core).plane;
  const mask = maskOutliers(image, saturatedMask, grid, plane, core);
  centre = locateCentre(image, mask, centre, found.saturatedRadius, plane);
  core = coreOf(image, mask, centre, found.saturatedRadius);
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
  const starCounts = starOf(image, mask, centre, saturated, setup);
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
    profile: profileOf(grid, core, search, units),
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

interface Units {
  readonly scale: number | { readonly absent: string };
  readonly starCounts: Quantity;
  readonly pixelSizeUm: number;
  readonly obstruction: number | undefined;
}

function describeDisk(
  one: DiskNumbers,
  search: DiskSearch,
  d: number,
  centre: StarCentre,
  units: Units,
): HaloDisk {
  const fitted = search.fit.disks[d]!;
  const hidden = absent('no hole, or one that the star’s core hides');
  const flux = fitted.holeFree
    ? one.flux
    : withHiddenHole(one.flux, one.outer.value, search, units.obstruction);
  const share = overStar(flux, units.starCounts);
  return {
    outerRadiusPixels: one.outer,
    innerRadiusPixels: fitted.holeFree ? one.inner : hidden,
    outerDiameterUm: scaled(one.outer, 2 * units.pixelSizeUm),
    innerDiameterUm: fitted.holeFree ? scaled(one.inner, 2 * units.pixelSizeUm) : hidden,
    outerRadiusArcsec: typeof units.scale === 'number' ? scaled(one.outer, units.scale) : units.scale,
    surfaceCounts: one.surface,
    fluxCounts: flux,
    shareOfStar: share,
    magnitudesFainter: isAbsent(share) ? share : toMagnitudes(share),
    surfaceMagnitudes: surfaceQuantity(one.surface, units),
    displacementPixels: {
      x: withCentre(one.dx, centre.standardUncertaintyX, fitted.placeFree),
      y: withCentre(one.dy, centre.standardUncertaintyY, fitted.placeFree),
    },
    displaced: fitted.placeFree,
    significance: one.significance,
  };
}

function profileOf(grid: PolarGrid, core: number, search: DiskSearch, units: Units): ProfileRing[] {
  // Without taking the disks out: the profile shows what is there.
  const table = ringTable(grid, core);
  const { fit } = search;
  const level = fit.parameters[0]!;
  const at = new Map(Array.from(search.table.ring, (ring, i) => [ring, i]));
  return Array.from(table.ring).flatMap((ring, i): ProfileRing[] => {
    if (!Number.isFinite(table.meanVariance[i]!)) return [];
    const k = at.get(ring);
    let disks = 0;
    if (k !== undefined) {
      for (let s = 0; s < table.sectors; s++) disks += fit.diskLight[k * table.sectors + s]! / table.sectors;
    }
    const wings = k === undefined ? 0 : fit.wingLight[k]!;
    // A median of n values scatters by 1.25 times as much as their mean, for normal noise.
    const counts = quantity(table.median[i]! - level, 1.2533 * Math.sqrt(table.meanVariance[i]!));
    const profileRing = {
      innerPixels: grid.edges[ring]!,
      outerPixels: grid.edges[ring + 1]!,
      radiusPixels: table.radius[i]!,
      counts,
      surfaceMagnitudes: surfaceQuantity(counts, units),
      sectors: table.used[i]!,
      wings,
      model: wings + disks,
    };
    return [profileRing];
  });
}

/** Pixels beyond the innermost ring within which the edge of a hole is not told from the wings. */
const HOLE_MARGIN = 3;

/**
 * Light of a disk whose hole is not seen: the obstruction's where it is given, else one of any radius up to where it
 * would be seen, all as likely, with the uncertainty of that.
 */
function withHiddenHole(
  flux: Measured,
  outer: number,
  search: DiskSearch,
  obstruction: number | undefined,
): Measured {
  const { radius, width } = search.table;
  const seen = Math.min(0.9, (radius[0]! - width[0]! / 2 + HOLE_MARGIN) / outer);
  const isKnown = obstruction !== undefined && obstruction <= seen;
  const lost = isKnown ? obstruction ** 2 : seen ** 2 / 3;
  const spread = isKnown ? 0 : seen ** 2 * Math.sqrt(4 / 45);
  const value = flux.value * (1 - lost);
  const reach = (end: number): number =>
    Math.hypot((end - flux.value) * (1 - lost), 1.96 * spread * flux.value);
  return {
    value,
    standardUncertainty: Math.hypot(flux.standardUncertainty * (1 - lost), spread * flux.value),
    interval95: [value - reach(flux.interval95[0]), value + reach(flux.interval95[1])],
  };
}

/** A displacement is as uncertain as the star's centre besides. */
function withCentre(value: Measured, uncertainty: number, isFree: boolean): Quantity {
  if (!isFree) return absent('not beyond chance: held at the star');
  const reach = (end: number): number => Math.hypot(end - value.value, 1.96 * uncertainty);
  return {
    value: value.value,
    standardUncertainty: Math.hypot(value.standardUncertainty, uncertainty),
    interval95: [value.value - reach(value.interval95[0]), value.value + reach(value.interval95[1])],
  };
}

function scaled(value: Measured, factor: number): Measured {
  return {
    value: value.value * factor,
    standardUncertainty: value.standardUncertainty * factor,
    interval95: [value.interval95[0] * factor, value.interval95[1] * factor],
  };
}

/** A share of the star, its own uncertainty added to the distances of the interval's ends. */
function overStar(value: Measured, star: Quantity): Quantity {
  if (isAbsent(star)) return star;
  const relative = star.standardUncertainty / star.value;
  const share = value.value / star.value;
  const reach = (end: number): number =>
    Math.hypot(end - value.value, 1.96 * relative * value.value) / star.value;
  return {
    value: share,
    standardUncertainty: Math.hypot(value.standardUncertainty / star.value, share * relative),
    interval95: [share - reach(value.interval95[0]), share + reach(value.interval95[1])],
  };
}

function toMagnitudes(share: Measured): Quantity {
  const [low, high] = share.interval95;
  if (!(share.value > 0 && low > 0)) return absent('not above 0 beyond its uncertainty');
  const value = -2.5 * Math.log10(share.value);
  return {
    value,
    standardUncertainty: (2.5 / Math.LN10) * (share.standardUncertainty / share.value),
    interval95: [-2.5 * Math.log10(high), -2.5 * Math.log10(low)],
  };
}

function surfaceQuantity(counts: Measured, units: Units): Quantity {
  if (typeof units.scale !== 'number') return units.scale;
  const share = overStar(counts, units.starCounts);
  return isAbsent(share) ? share : toMagnitudes(scaled(share, 1 / units.scale ** 2));
}

function surfaceMagnitudes(counts: number, units: Units): number | { readonly absent: string } {
  if (typeof units.scale !== 'number') return units.scale;
  if (isAbsent(units.starCounts)) return units.starCounts;
  return -2.5 * Math.log10(counts / units.starCounts.value / units.scale ** 2);
}

function starOf(
  image: StarImage,
  mask: Uint8Array,
  centre: Place,
  saturated: boolean,
  setup: HaloSetup,
): Quantity {
  if (setup.star !== undefined) return quantity(setup.star.counts, setup.star.standardUncertainty);
  if (saturated) {
    return absent(
      'the star is saturated: its light needs a short exposure or its magnitude and the zero point',
    );
  }
  const sum = apertureSum(image, mask, centre);
  return sum === null
    ? absent('the star is too near to the edge for an aperture')
    : quantity(sum.counts, sum.standardUncertainty);
}

function coreOf(image: StarImage, mask: Uint8Array, centre: Place, saturatedRadius: number): number {
  return saturatedRadius > 0 ? hiddenRadius(image, mask, centre, 6 * saturatedRadius + 40) + 1 : 3;
}

function reachOf(image: StarImage, centre: Place, setup: HaloSetup, notes: string[]): number {
  const right = image.width - 1 - centre.x;
  const below = image.height - 1 - centre.y;
  const sides = [centre.x, right, centre.y, below].sort((a, b) => a - b) as [number, number, number, number];
  // Up to where three sides of four are in the image, rings keep 60 % of their sectors.
  const inImage = Math.min(sides[1], 1.6 * sides[0]);
  if (sides[1] > 1.6 * sides[0]) {
    notes.push(
      `the star is ${sides[0].toFixed(0)} pixels from an edge of the image: no further than ${inImage.toFixed(0)} pixels are judged`,
    );
  }
  return Math.max(LEAST_REACH, Math.min(inImage, setup.outerRadiusPixels ?? Number.POSITIVE_INFINITY));
}

function requireRoom(image: StarImage, centre: StarCentre, rough: Place, core: number, name: string): void {
  const room = Math.min(centre.x, centre.y, image.width - 1 - centre.x, image.height - 1 - centre.y);
  const least = Math.max(16, 2 * core);
  if (!(room >= least)) {
    refuse(
      name,
      '',
      `has the star ${Number.isFinite(room) ? Math.max(0, room).toFixed(0) : 0} pixels from its edge, at least ${least.toFixed(0)} are needed`,
      'give an image with the star further inside',
    );
  }
  if (Math.hypot(centre.x - rough.x, centre.y - rough.y) > 10 + 2 * core) {
    refuse(name, '', 'has no round star where it is brightest', 'name the place of the star');
  }
}

function requireSetup(setup: HaloSetup): void {
  const positive: readonly [string, number | undefined][] = [
    ['pixelSizeUm', setup.pixelSizeUm],
    ['fNumber', setup.fNumber],
    ['saturationCounts', setup.saturationCounts],
    ['focalLengthMm', setup.focalLengthMm],
    ['outerRadiusPixels', setup.outerRadiusPixels],
    ['edgeBlurPixels', setup.edgeBlurPixels],
    ['star.counts', setup.star?.counts],
  ];
  for (const [field, value] of positive) {
    if (value !== undefined && !(value > 0 && value < Infinity)) {
      throw new RangeError(`measureHalo requires ${field} above 0, got ${value}`);
    }
  }
  const { obstruction = 0, falseAlarm = 0.002, draws = 1000, mostDisks = 5 } = setup;
  if (!(obstruction >= 0 && obstruction < 1))
    throw new RangeError(`measureHalo requires an obstruction from 0 to below 1, got ${obstruction}`);
  if (!(falseAlarm > 0 && falseAlarm <= 0.2))
    throw new RangeError(`measureHalo requires a false-alarm probability up to 0.2, got ${falseAlarm}`);
  if (!(Number.isInteger(draws) && draws >= 100))
    throw new RangeError(`measureHalo requires at least 100 draws, got ${draws}`);
  if (!(Number.isInteger(mostDisks) && mostDisks >= 0))
    throw new RangeError(`measureHalo requires a whole number of disks, got ${mostDisks}`);
}
