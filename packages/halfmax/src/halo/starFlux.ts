import { refuse } from '../errors.js';
import { findStar } from './findStar.js';
import { locateCentre } from './locateCentre.js';
import { maskSaturated } from './maskPixels.js';
import { medianOf } from './medianOf.js';
import { PIXEL_SATURATED, type Place, type StarImage } from './starImage.js';

/** Light of a star in the exposure in which its halo is measured. */
export interface StarFlux {
  /** Counts in all. */
  readonly counts: number;
  readonly standardUncertainty: number;
  /** Where it comes from, in words. */
  readonly source: string;
}

const LARGEST_APERTURE = 60;
/** Share of a star's light that may lie in an aureole below the noise of a short exposure. Common practice, no source. */
const MOST_UNSEEN = 0.05;
/** Rings nearer than this are the star's core, where pixels of one ring differ. */
const CORE_PIXELS = 6;
/** A pixel further from the median of its ring, in standard deviations of noise and unevenness, is hot or another star. */
const STRAY = 6;
/** Unevenness of a star's light along a ring: common practice, no source. */
const UNEVEN = 0.3;

/**
 * Light of a star from a short exposure in which it is not saturated.
 *
 * @param image - short exposure of the same star through the same filter
 * @param saturationCounts - counts at and above which a pixel is full
 * @param exposureRatio - long exposure over the short one
 * @param name - of the image, for messages
 * @param near - where to look, pixels of the image; left out: the brightest star
 * @returns light in the long exposure
 * @throws {BadInputError} no star, a saturated one, or one at the edge
 */
export function starFluxFromShort(
  image: StarImage,
  saturationCounts: number,
  exposureRatio: number,
  name: string,
  near?: Place,
): StarFlux {
  if (!(exposureRatio > 0 && exposureRatio < Infinity)) {
    throw new RangeError(`starFluxFromShort requires a positive ratio of exposures, got ${exposureRatio}`);
  }
  const found = findStar(image, saturationCounts, name, near);
  const mask = maskSaturated(image, saturationCounts);
  const at = Math.round(found.place.y) * image.width + Math.round(found.place.x);
  if (found.saturatedRadius > 0 || (mask[at]! & PIXEL_SATURATED) !== 0) {
    refuse(
      name,
      '',
      'shows the star saturated too',
      'give an exposure short enough, or the star’s magnitude',
    );
  }
  const centre = locateCentre(image, mask, found.place, 0);
  const sum = apertureSum(image, mask, centre);
  if (sum === null)
    refuse(name, '', 'shows the star too near to the edge', 'give an image with room about the star');
  // The aureole that a short exposure does not show: rectangular from nothing to the most.
  const counts = sum.counts * (1 + MOST_UNSEEN / 2);
  return {
    counts: counts * exposureRatio,
    standardUncertainty:
      Math.hypot(sum.standardUncertainty, (sum.counts * MOST_UNSEEN) / Math.sqrt(12)) * exposureRatio,
    source: `${name}, aperture of ${sum.radius} pixels and ${100 * MOST_UNSEEN} % at most beyond it`,
  };
}

/**
 * Light of a star from its magnitude and the zero point of the exposure.
 *
 * @param magnitude - of the star in the filter
 * @param zeroPoint - magnitude that gives one count in this exposure
 * @param standardUncertainty - of the difference of both, magnitudes
 * @returns light in this exposure
 * @example
 * starFluxFromMagnitude(5, 20, 0).counts; // => 1000000
 */
export function starFluxFromMagnitude(
  magnitude: number,
  zeroPoint: number,
  standardUncertainty: number,
): StarFlux {
  if (!Number.isFinite(magnitude) || !Number.isFinite(zeroPoint) || !(standardUncertainty >= 0)) {
    throw new RangeError('starFluxFromMagnitude requires finite magnitudes and an uncertainty of 0 or more');
  }
  const counts = 10 ** (0.4 * (zeroPoint - magnitude));
  return {
    counts,
    standardUncertainty: 0.4 * Math.LN10 * counts * standardUncertainty,
    source: `magnitude ${magnitude} and zero point ${zeroPoint}`,
  };
}

/**
 * Light of a star within the aperture at which it sinks into the noise, background taken from a ring about it.
 *
 * @param image - the picture
 * @param mask - 0 where a pixel may be used
 * @param centre - of the star
 * @returns counts and standard uncertainty, or null where the aperture does not fit in the image
 */
export function apertureSum(
  image: StarImage,
  mask: Uint8Array,
  centre: Place,
): { counts: number; standardUncertainty: number; radius: number } | null {
  const { width, height } = image;
  const room = Math.floor(Math.min(centre.x, centre.y, width - 1 - centre.x, height - 1 - centre.y));
  const most = Math.min(LARGEST_APERTURE, Math.floor(room / 1.5));
  if (most < 6) return null;
  const { rings, outside } = ringsAbout(image, mask, centre, most);
  const level = medianOf(outside);
  const noise = 1.4826 * medianOf(outside.map((value) => Math.abs(value - level)));
  let reached = 0;
  let last = 0;
  let total = 0;
  let pixels = 0;
  for (let radius = 0; radius <= most; radius++) {
    const { values, missing } = rings[radius]!;
    if (values.length === 0 && missing === 0) continue;
    if (values.length === 0) return null;
    const light = ringLight(values, radius, level, noise);
    if (radius >= CORE_PIXELS && light < (2 * noise) / Math.sqrt(values.length)) break;
    reached = radius;
    last = light * values.length;
    total += light * (values.length + missing);
    pixels += values.length + missing;
  }
  const levelVariance = (1.57 * noise * noise) / outside.length;
  // What the next rings hold just below the noise: half of the last ring's light.
  const beyond = Math.max(0, last) * 0.5;
  return {
    counts: total,
    standardUncertainty: Math.hypot(noise * Math.sqrt(pixels), pixels * Math.sqrt(levelVariance), beyond),
    radius: reached,
  };
}

/** Pixels about a place, ring by ring, and those of the ring of background. */
function ringsAbout(
  { width, counts }: StarImage,
  mask: Uint8Array,
  centre: Place,
  most: number,
): { rings: { readonly values: number[]; missing: number }[]; outside: number[] } {
  const outside: number[] = [];
  const rings = Array.from({ length: most + 1 }, () => ({ values: [] as number[], missing: 0 }));
  const reach = Math.floor(most * 1.5);
  for (let y = Math.ceil(centre.y - reach); y <= centre.y + reach; y++) {
    for (let x = Math.ceil(centre.x - reach); x <= centre.x + reach; x++) {
      const k = y * width + x;
      const r = Math.hypot(x - centre.x, y - centre.y);
      if (r > reach) continue;
      const ring = r < most + 0.5 ? rings[Math.round(r)]! : null;
      if (mask[k] !== 0) {
        if (ring !== null) ring.missing++;
      } else if (r > most * 1.1) outside.push(counts[k]!);
      else ring?.values.push(counts[k]!);
    }
  }
  return { rings, outside };
}

/** Mean light of a ring above the level; beyond the core without pixels that stray. */
function ringLight(values: readonly number[], radius: number, level: number, noise: number): number {
  const middle = radius < CORE_PIXELS ? 0 : medianOf(values);
  const limit = radius < CORE_PIXELS ? Infinity : STRAY * Math.hypot(noise, UNEVEN * (middle - level));
  const kept = values.filter((value) => Math.abs(value - middle) <= limit);
  const used = kept.length > 0 ? kept : values;
  return used.reduce((sum, value) => sum + value, 0) / used.length - level;
}
