import { evaluatePolynomial, fitPolynomial, median } from '../numeric/index.js';
import type { SlitImage, Trace } from './slitImage.js';
import { groundOf, leastHeight, smoothProfile, topOf } from './spatialProfile.js';
import { type Centroid, traceCentroids } from './traceCentroids.js';

/** Profiles that fall by less than this part of their top are taken to fill the whole height. */
const leastContrast = 0.1;

/** A straight or, with light in enough blocks, slightly bent line through the centroids; outliers are left out. */
function fitRows(centroids: readonly Centroid[], pixels: number): Float64Array {
  const n = centroids.length;
  const pixel = centroids.map((c) => c.pixel);
  const row = centroids.map((c) => c.row);
  if (n < 3) return new Float64Array(pixels).fill(n === 0 ? 0 : median(row));
  const degree = n >= 12 && pixel[n - 1]! - pixel[0]! > 0.6 * pixels ? 2 : 1;
  let weights = centroids.map((c) => c.height);
  let fit = fitPolynomial(pixel, row, degree, { weights });
  for (let round = 0; round < 5; round++) {
    const distance = Array.from(fit.residuals, Math.abs);
    const limit = Math.max(0.2, 4 * median(distance));
    const next = centroids.map((c, i) => (distance[i]! <= limit ? c.height : 0));
    if (next.filter((w) => w > 0).length <= degree + 1 || next.every((w, i) => w === weights[i])) break;
    weights = next;
    fit = fitPolynomial(pixel, row, degree, { weights });
  }
  return Float64Array.from({ length: pixels }, (_, p) =>
    evaluatePolynomial(fit.coefficients, (p - fit.pivot) / fit.scale),
  );
}

/** Light against the distance from the middle of the trace, in steps of one row from -rows to rows. */
function straightProfile(light: SlitImage, centreRow: Float64Array): Float64Array {
  const { pixels, rows, counts } = light;
  const sum = new Float64Array(2 * rows + 1);
  const seen = new Float64Array(2 * rows + 1);
  for (let p = 0; p < pixels; p++) {
    for (let d = -rows; d <= rows; d++) {
      const at = centreRow[p]! + d;
      const r = Math.floor(at);
      if (r < 0 || r >= rows - 1) continue;
      const value = (1 - (at - r)) * counts[r * pixels + p]! + (at - r) * counts[(r + 1) * pixels + p]!;
      if (!Number.isFinite(value)) continue;
      sum[d + rows]! += value;
      seen[d + rows]! += 1;
    }
  }
  return sum.map((value, i) => (seen[i]! > pixels / 2 ? value / seen[i]! : Number.NaN));
}

/** Distance from an index at which the profile falls to the level, going up (step 1) or down (step -1). */
function edge(profile: Float64Array, from: number, step: 1 | -1, level: number): number {
  for (let i = from; Number.isFinite(profile[i + step]); i += step) {
    const here = profile[i]!;
    const next = profile[i + step]!;
    if (next < level && here >= level) return Math.abs(i - from) + (here - level) / (here - next);
  }
  return Number.POSITIVE_INFINITY;
}

/**
 * Finds the spectrum on a slit image: the row of its middle along the dispersion (straight or slightly bent, so that a
 * tilted spectrum is followed) and the rows within half of the height of its profile.
 *
 * Meant for the sum of all lit frames of a session with the dark level taken off. Where the light fills the whole
 * height the trace is all rows.
 *
 * @param light - counts above dark
 * @returns the trace, one for all frames of the session
 * Source: flux-weighted centroids and half-height aperture, common practice, no source. Cost: O(pixels x rows).
 */
export function findTrace(light: SlitImage): Trace {
  const { pixels, rows } = light;
  const all: Trace = {
    centreRow: new Float64Array(pixels).fill((rows - 1) / 2),
    below: Number.POSITIVE_INFINITY,
    above: Number.POSITIVE_INFINITY,
  };
  const centroids = rows < 3 ? [] : traceCentroids(light);
  if (centroids.length === 0) return all;
  const centreRow = fitRows(centroids, pixels);
  const profile = straightProfile(light, centreRow);
  const finite = profile.filter(Number.isFinite);
  if (finite.length < 3) return all;
  const { ground, noise } = groundOf(finite);
  const highest = profile[topOf(profile)]!;
  const height = highest - ground;
  if (!(height > leastContrast * highest && height > leastHeight * noise)) return all;
  const even = smoothProfile(profile, ground, height);
  const top = topOf(even);
  const level = ground + (even[top]! - ground) / 2;
  const below = edge(even, top, -1, level) - (top - rows);
  const above = edge(even, top, 1, level) + (top - rows);
  return { centreRow, below, above };
}
