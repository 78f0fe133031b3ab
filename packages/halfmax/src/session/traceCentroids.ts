import type { SlitImage } from './slitImage.js';
import { groundOf, leastHeight, smoothProfile, topOf } from './spatialProfile.js';

/** Middle of the spectrum in one block of columns. */
export interface Centroid {
  readonly pixel: number;
  readonly row: number;
  /** Height of the profile above the ground, counts. */
  readonly height: number;
  /** Rows that belong to the profile. */
  readonly extent: number;
}

const blocks = 32;

/** Light per row over a range of columns; undefined values count as none. */
function rowProfile(light: SlitImage, from: number, to: number): Float64Array {
  const profile = new Float64Array(light.rows);
  for (let r = 0; r < light.rows; r++) {
    let sum = 0;
    for (let p = from; p < to; p++) {
      const value = light.counts[r * light.pixels + p]!;
      if (Number.isFinite(value)) sum += value;
    }
    profile[r] = sum;
  }
  return profile;
}

/** Flux-weighted middle of the rows around the top; null where no light stands out. */
function centroidOf(profile: Float64Array): Omit<Centroid, 'pixel'> | null {
  const { ground, noise } = groundOf(profile);
  const height = profile[topOf(profile)]! - ground;
  if (!(height > leastHeight * noise)) return null;
  const even = smoothProfile(profile, ground, height);
  const top = topOf(even);
  // Light above a floor, not above the ground: a row that just comes in then changes nothing.
  const floor = ground + 0.2 * (even[top]! - ground);
  let from = top;
  let to = top;
  while (from > 0 && even[from - 1]! > floor) from--;
  while (to < even.length - 1 && even[to + 1]! > floor) to++;
  let flux = 0;
  let moment = 0;
  for (let r = from; r <= to; r++) {
    flux += even[r]! - floor;
    moment += r * (even[r]! - floor);
  }
  return { row: moment / flux, height, extent: to - from + 1 };
}

/**
 * Middles of the spectrum in blocks of columns that hold light; blocks whose light has another extent than that of
 * the brightest show something else and are left out.
 *
 * @param light - counts above dark
 * @returns at most 33 centroids, by rising pixel
 */
export function traceCentroids(light: SlitImage): Centroid[] {
  const found: Centroid[] = [];
  const width = Math.max(1, Math.floor(light.pixels / blocks));
  for (let from = 0; from + width <= light.pixels; from += width) {
    const centroid = centroidOf(rowProfile(light, from, from + width));
    if (centroid !== null) found.push({ ...centroid, pixel: from + (width - 1) / 2 });
  }
  const brightest = found.reduce((best, c) => (c.height > best.height ? c : best), found[0]!);
  return found.filter(({ height, extent }) => {
    const likeIt = extent > 0.5 * brightest.extent - 1 && extent < 1.5 * brightest.extent + 1;
    return likeIt && height > 0.005 * brightest.height;
  });
}
