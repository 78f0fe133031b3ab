import { refuse } from '../errors.js';
import { quantile } from '../numeric/index.js';
import type { Place, StarImage } from './starImage.js';

/** Where a star is, roughly. */
export interface FoundStar {
  /** In pixels of the image. */
  readonly place: Place;
  /** Half the thickness of the saturated core, pixels; 0 where the star is not saturated. */
  readonly saturatedRadius: number;
}

/** Reach of a star from a place that the user names, pixels. */
const NEAR_PIXELS = 60;
/** A saturated patch thinner than this is a hot pixel or a trail, no star. */
const LEAST_THICKNESS = 2;
/** Brightest 3 x 3 pixels above the background, in standard deviations. */
const LEAST_BRIGHTNESS = 15;

/**
 * Finds the brightest star: the thickest saturated patch, so that bleeding and spikes do not lead astray, or the
 * brightest pixels where nothing is saturated.
 *
 * @param image - the picture
 * @param saturationCounts - counts at and above which a pixel is full
 * @param name - of the image, for messages
 * @param near - where to look, in pixels of the image; left out: everywhere
 * @returns the place to about a pixel, more where the core is large
 * @throws {BadInputError} too small, all saturated, undefined, or no star
 *
 * Cost: O(pixels).
 */
export function findStar(image: StarImage, saturationCounts: number, name: string, near?: Place): FoundStar {
  const { width, height, counts } = image;
  if (width < 32 || height < 32) {
    refuse(
      name,
      '',
      `is ${width} x ${height} pixels`,
      'give an image of at least 32 x 32 pixels about the star',
    );
  }
  const x0 = near === undefined ? 0 : Math.max(0, Math.round(near.x) - NEAR_PIXELS);
  const y0 = near === undefined ? 0 : Math.max(0, Math.round(near.y) - NEAR_PIXELS);
  const x1 = near === undefined ? width : Math.min(width, Math.round(near.x) + NEAR_PIXELS + 1);
  const y1 = near === undefined ? height : Math.min(height, Math.round(near.y) + NEAR_PIXELS + 1);
  if (x1 - x0 < 3 || y1 - y0 < 3)
    refuse(name, '', 'does not hold the place named', 'name a place in the image');
  let full = 0;
  let defined = 0;
  for (let k = 0; k < counts.length; k++) {
    const value = counts[k]!;
    if (value >= saturationCounts) full++;
    if (!Number.isNaN(value)) defined++;
  }
  if (defined < counts.length / 2) {
    refuse(
      name,
      '',
      `${counts.length - defined} of ${counts.length} pixels have no value`,
      'give a whole image',
    );
  }
  if (full > defined / 2) {
    refuse(
      name,
      '',
      `${full} of ${defined} pixels are at or above the saturation of ${saturationCounts} counts`,
      'give a shorter exposure, or correct saturationCounts',
    );
  }
  const thick = thickestPatch(image, saturationCounts, x0, y0, x1, y1);
  if (thick !== null && thick.saturatedRadius >= LEAST_THICKNESS) return thick;
  return brightestPixels(image, name, x0, y0, x1, y1);
}

/** Largest distance to the edge of a saturated patch, by two passes with steps of 1 and of a diagonal. */
function thickestPatch(
  image: StarImage,
  saturation: number,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): FoundStar | null {
  const { width, counts } = image;
  const box = saturatedBox(image, saturation, x0, y0, x1, y1);
  if (box === null) return null;
  // With a margin of one on all sides: steps are then taken from every pixel alike.
  const w = box.x1 - box.x0 + 2;
  const h = box.y1 - box.y0 + 2;
  const depth = new Float32Array(w * h);
  for (let j = 1; j < h - 1; j++) {
    for (let i = 1; i < w - 1; i++) {
      if (!(counts[(box.y0 + j - 1) * width + box.x0 + i - 1]! >= saturation)) continue;
      const at = j * w + i;
      depth[at] = Math.min(
        depth[at - 1]! + 1,
        depth[at - w]! + 1,
        depth[at - w - 1]! + 1.4,
        depth[at - w + 1]! + 1.4,
      );
    }
  }
  let most = 0;
  let best = 0;
  for (let j = h - 2; j >= 1; j--) {
    for (let i = w - 2; i >= 1; i--) {
      const at = j * w + i;
      if (depth[at] === 0) continue;
      const back = Math.min(
        depth[at + 1]! + 1,
        depth[at + w]! + 1,
        depth[at + w + 1]! + 1.4,
        depth[at + w - 1]! + 1.4,
      );
      if (back < depth[at]!) depth[at] = back;
      if (depth[at]! > most) {
        most = depth[at]!;
        best = at;
      }
    }
  }
  const bx = best % w;
  const by = Math.floor(best / w);
  let sum = 0;
  let sx = 0;
  let sy = 0;
  const reach = Math.ceil(most);
  for (let j = Math.max(0, by - reach); j <= Math.min(h - 1, by + reach); j++) {
    for (let i = Math.max(0, bx - reach); i <= Math.min(w - 1, bx + reach); i++) {
      const weight = depth[j * w + i]! - 0.75 * most;
      if (weight <= 0) continue;
      sum += weight;
      sx += weight * (box.x0 - x0 + i);
      sy += weight * (box.y0 - y0 + j);
    }
  }
  return { place: { x: x0 - 1 + sx / sum, y: y0 - 1 + sy / sum }, saturatedRadius: most };
}

/** The smallest box that holds all saturated pixels of an area, its ends after the last; null where there are none. */
function saturatedBox(
  image: StarImage,
  saturation: number,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): { x0: number; y0: number; x1: number; y1: number } | null {
  const { width, counts } = image;
  const box = { x0: x1, y0: y1, x1: x0, y1: y0 };
  for (let y = y0; y < y1; y++) {
    for (let x = x0; x < x1; x++) {
      if (!(counts[y * width + x]! >= saturation)) continue;
      if (x < box.x0) box.x0 = x;
      if (x >= box.x1) box.x1 = x + 1;
      if (y < box.y0) box.y0 = y;
      box.y1 = y + 1;
    }
  }
  return box.x1 > box.x0 ? box : null;
}

function brightestPixels(
  image: StarImage,
  name: string,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): FoundStar {
  const { width, counts } = image;
  const sample: number[] = [];
  const stride = Math.max(1, Math.floor(counts.length / 20011));
  for (let k = 0; k < counts.length; k += stride) if (!Number.isNaN(counts[k]!)) sample.push(counts[k]!);
  const level = quantile(sample, 0.5);
  const spread = (quantile(sample, 0.5) - quantile(sample, 0.1587)) / 3 || 1e-9; // of a mean of nine
  let best = Number.NEGATIVE_INFINITY;
  let place = { x: 0, y: 0 };
  for (let y = y0 + 1; y < y1 - 1; y++) {
    for (let x = x0 + 1; x < x1 - 1; x++) {
      let sum = 0;
      let top = Number.NEGATIVE_INFINITY;
      for (let j = -1; j <= 1; j++) {
        for (let i = -1; i <= 1; i++) {
          const value = counts[(y + j) * width + x + i]!;
          sum += value;
          if (value > top) top = value;
        }
      }
      // Without its brightest pixel: a hot pixel alone is no star.
      const mean = (sum - top) / 8;
      if (mean > best) {
        best = mean;
        place = { x, y };
      }
    }
  }
  if (!((best - level) / spread > LEAST_BRIGHTNESS)) {
    refuse(name, '', 'holds no star that stands out of the background', 'give the image of a bright star');
  }
  return { place, saturatedRadius: 0 };
}
