import { evaluatePolynomial, fitPolynomial, median } from '../numeric/index.js';
import type { SlitImage, Trace } from './slitImage.js';

/** Centroids of the spectrum in blocks of columns. */
interface Centroids {
  readonly pixel: number[];
  readonly row: number[];
  readonly flux: number[];
}

const blocks = 32;
/** Profiles that fall by less than this part of their top are taken to fill the whole height. */
const leastContrast = 0.3;

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

/** Flux-weighted middle of the rows above half of the top around it; null where there is no light to speak of. */
function centroidOf(profile: Float64Array): { row: number; flux: number } | null {
  const ground = median(
    Float64Array.from(profile)
      .sort()
      .subarray(0, Math.max(1, profile.length >> 1)),
  );
  let top = 0;
  for (let r = 1; r < profile.length; r++) if (profile[r]! > profile[top]!) top = r;
  const height = profile[top]! - ground;
  if (!(height > 0)) return null;
  let from = top;
  let to = top;
  while (from > 0 && profile[from - 1]! - ground > 0.2 * height) from--;
  while (to < profile.length - 1 && profile[to + 1]! - ground > 0.2 * height) to++;
  let flux = 0;
  let moment = 0;
  for (let r = from; r <= to; r++) {
    flux += profile[r]! - ground;
    moment += r * (profile[r]! - ground);
  }
  return { row: moment / flux, flux };
}

function blockCentroids(light: SlitImage): Centroids {
  const found: Centroids = { pixel: [], row: [], flux: [] };
  const width = Math.max(1, Math.floor(light.pixels / blocks));
  for (let from = 0; from + width <= light.pixels; from += width) {
    const centroid = centroidOf(rowProfile(light, from, from + width));
    if (centroid === null) continue;
    found.pixel.push(from + (width - 1) / 2);
    found.row.push(centroid.row);
    found.flux.push(centroid.flux);
  }
  // Blocks between the lines of a lamp hold noise: their centroids are anywhere.
  const brightest = found.flux.reduce((a, b) => Math.max(a, b), 0);
  const keep = found.flux.map((flux) => flux > 0.02 * brightest);
  const kept = (values: number[]): number[] => values.filter((_, i) => keep[i]);
  return { pixel: kept(found.pixel), row: kept(found.row), flux: kept(found.flux) };
}

/** A straight or, with light in enough blocks, slightly bent line through the centroids; outliers are left out. */
function fitRows(centroids: Centroids, pixels: number): Float64Array {
  const out = new Float64Array(pixels);
  const n = centroids.pixel.length;
  if (n < 4) return out.fill(n === 0 ? 0 : median(centroids.row));
  const span = centroids.pixel[n - 1]! - centroids.pixel[0]!;
  const degree = n >= 12 && span > 0.6 * pixels ? 2 : 1;
  let weights = centroids.flux.map((flux) => flux);
  let fit = fitPolynomial(centroids.pixel, centroids.row, degree, { weights });
  for (let round = 0; round < 5; round++) {
    const distance = Array.from(fit.residuals, Math.abs);
    const limit = Math.max(0.2, 4 * median(distance));
    const next = centroids.flux.map((flux, i) => (distance[i]! <= limit ? flux : 0));
    if (next.filter((w) => w > 0).length <= degree + 1 || next.every((w, i) => w === weights[i])) break;
    weights = next;
    fit = fitPolynomial(centroids.pixel, centroids.row, degree, { weights });
  }
  for (let p = 0; p < pixels; p++) out[p] = evaluatePolynomial(fit.coefficients, (p - fit.pivot) / fit.scale);
  return out;
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

/** Distance from the middle at which the profile falls to the level, going up (step 1) or down (step -1). */
function edge(profile: Float64Array, middle: number, step: 1 | -1, level: number): number {
  for (let i = middle; Number.isFinite(profile[i + step]); i += step) {
    const here = profile[i]!;
    const next = profile[i + step]!;
    if (next < level && here >= level) return Math.abs(i - middle) + (here - level) / (here - next);
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
  if (rows < 3) return all;
  const centreRow = fitRows(blockCentroids(light), pixels);
  const profile = straightProfile(light, centreRow);
  const finite = profile.filter(Number.isFinite);
  if (finite.length < 3) return all;
  const ground = median(
    finite
      .slice()
      .sort()
      .subarray(0, Math.max(1, finite.length >> 2)),
  );
  let top = rows;
  for (let i = 0; i < profile.length; i++)
    if (profile[i]! > (profile[top] ?? Number.NEGATIVE_INFINITY)) top = i;
  if (!(profile[top]! - ground > leastContrast * profile[top]!)) return all;
  const level = ground + (profile[top]! - ground) / 2;
  const below = edge(profile, top, -1, level) - (top - rows);
  const above = edge(profile, top, 1, level) + (top - rows);
  return { centreRow, below, above };
}
