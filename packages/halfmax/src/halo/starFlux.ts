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
  return {
    counts: sum.counts * exposureRatio,
    standardUncertainty: sum.standardUncertainty * exposureRatio,
    source: `${name}, aperture of ${sum.radius} pixels`,
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
 * Light within the aperture at which the star sinks into the noise, background taken from a ring about it.
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
  const { width, height, counts } = image;
  const room = Math.floor(Math.min(centre.x, centre.y, width - 1 - centre.x, height - 1 - centre.y));
  const most = Math.min(LARGEST_APERTURE, Math.floor(room / 1.5));
  if (most < 6) return null;
  const outside: number[] = [];
  const rings = Array.from({ length: most + 1 }, () => ({ sum: 0, n: 0, missing: 0 }));
  const reach = Math.floor(most * 1.5);
  for (let y = Math.ceil(centre.y - reach); y <= centre.y + reach; y++) {
    for (let x = Math.ceil(centre.x - reach); x <= centre.x + reach; x++) {
      const k = y * width + x;
      const r = Math.hypot(x - centre.x, y - centre.y);
      if (r > reach) continue;
      if (mask[k] !== 0) {
        if (r < most + 0.5) rings[Math.round(r)]!.missing++;
      } else if (r > most * 1.1) outside.push(counts[k]!);
      else if (r < most + 0.5) {
        const ring = rings[Math.round(r)]!;
        ring.sum += counts[k]!;
        ring.n++;
      }
    }
  }
  const level = medianOf(outside);
  const noise = 1.4826 * medianOf(outside.map((value) => Math.abs(value - level)));
  let total = 0;
  let pixels = 0;
  let radius = 0;
  for (; radius <= most; radius++) {
    const { sum, n, missing } = rings[radius]!;
    if (n === 0 && missing === 0) continue;
    if (n === 0) return null;
    const light = sum / n - level;
    if (radius >= 6 && light < (2 * noise) / Math.sqrt(n)) break;
    total += light * (n + missing);
    pixels += n + missing;
  }
  const levelVariance = (1.57 * noise * noise) / outside.length;
  // What the aperture leaves out is not known: half of the last ring's light for as many rings again.
  const last = rings[Math.max(0, Math.min(most, radius) - 1)]!;
  const beyond = Math.max(0, last.sum - last.n * level) * 0.5;
  return {
    counts: total,
    standardUncertainty: Math.hypot(noise * Math.sqrt(pixels), pixels * Math.sqrt(levelVariance), beyond),
    radius: Math.min(most, radius),
  };
}
