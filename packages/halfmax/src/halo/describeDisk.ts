import { absent, isAbsent, type Measured, type Quantity } from '../metrics/index.js';
import type { DiskNumbers } from './bootstrapDisks.js';
import type { HaloDisk } from './haloMeasurement.js';
import { type HaloUnits, overStar, scaled, surfaceQuantity, toMagnitudes } from './haloUnits.js';
import type { StarCentre } from './locateCentre.js';
import type { DiskSearch } from './searchDisks.js';

/**
 * A fitted disk in the user's units.
 *
 * @param one - numbers in pixels and counts
 * @param search - the fit that it belongs to
 * @param d - its place in the fit
 * @param centre - of the star
 * @param units - scale, star, pixel
 * @returns the disk as it is reported
 */
export function describeDisk(
  one: DiskNumbers,
  search: DiskSearch,
  d: number,
  centre: StarCentre,
  units: HaloUnits,
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
  // The middle 95 % of the radii; their squares lie lopsided about the mean.
  const most = isKnown ? lost : (0.975 * seen) ** 2;
  const least = isKnown ? lost : (0.025 * seen) ** 2;
  const reach = (end: number, other: number): number =>
    Math.hypot((end - flux.value) * (1 - lost), (other - lost) * flux.value);
  return {
    value,
    standardUncertainty: Math.hypot(flux.standardUncertainty * (1 - lost), spread * flux.value),
    interval95: [value - reach(flux.interval95[0], most), value + reach(flux.interval95[1], least)],
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
