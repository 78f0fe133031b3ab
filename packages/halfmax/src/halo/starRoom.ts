import { refuse } from '../errors.js';
import { absent, type Quantity, quantity } from '../metrics/index.js';
import type { HaloSetup } from './haloSetup.js';
import { hiddenRadius, type StarCentre } from './locateCentre.js';
import { apertureSum } from './starFlux.js';
import type { Place, StarImage } from './starImage.js';

const LEAST_REACH = 24;

/** Light of the star in this exposure: given, or measured where it is not saturated. */
export function starLight(
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

/** Distance within which the star hides what is about it, pixels. */
export function coreRadius(
  image: StarImage,
  mask: Uint8Array,
  centre: Place,
  saturatedRadius: number,
): number {
  return saturatedRadius > 0 ? hiddenRadius(image, mask, centre, 6 * saturatedRadius + 40) + 1 : 3;
}

/** How far the rings go, with a note where an edge of the image is near. */
export function ringReach(image: StarImage, centre: Place, setup: HaloSetup, notes: string[]): number {
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

/** Refuses a star that is too near to the edge, or none that is round. */
export function requireRoom(
  image: StarImage,
  centre: StarCentre,
  rough: Place,
  core: number,
  name: string,
): void {
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
