import { medianOf } from './medianOf.js';
import { PIXEL_SATURATED, type Place, type StarImage } from './starImage.js';

/** Centre of a star and how well it is known. */
export interface StarCentre extends Place {
  /** Standard uncertainty along x and y, pixels. */
  readonly standardUncertaintyX: number;
  readonly standardUncertaintyY: number;
  /** Distances from the centre of the pixels that it comes from, pixels. */
  readonly fromPixels: number;
  readonly toPixels: number;
}

const SECTORS = 24;
const ROUNDS = 30;
/** Pixels between the core and the light that is used: nearer, the rings are too steep for whole pixels. */
const MARGIN = 4;
/** What whole pixels and overflowing columns do to the centre, pixels: found with simulated stars of known place. */
const LEAST_UNCERTAINTY = 0.01;
/** A pixel is trusted to this share of the light there: wings are not perfectly round. */
const ROUNDNESS = 0.05;

/**
 * Centre of a star from the light about its core: the place about which that light is round. The clipped core,
 * bleeding and everything else masked take no part.
 *
 * @param image - the picture
 * @param mask - 0 where a pixel may be used
 * @param start - rough place, to about half of the core's size
 * @param coreRadius - of the saturated core, pixels; 0 where there is none
 * @param plane - slope of the background, counts a pixel along x and y: it would draw the centre to its bright side
 * @returns the centre; its uncertainty from leaving out one sector after another
 *
 * Source: least squares on the radial slope of the median profile, own; leave-one-out uncertainty: Efron, Stein,
 * Ann. Stat. 9, 586 (1981). Cost: O(pixels of the annulus).
 */
export function locateCentre(
  image: StarImage,
  mask: Uint8Array,
  start: Place,
  coreRadius: number,
  plane: Place = { x: 0, y: 0 },
): StarCentre {
  const inner = coreRadius > 0 ? coreRadius + MARGIN : 0;
  const outer = coreRadius > 0 ? 3 * coreRadius + 12 : 12;
  let x = start.x;
  let y = start.y;
  let sums: Float64Array = new Float64Array(SECTORS * 5);
  for (let round = 0; round < ROUNDS; round++) {
    sums = sectorSums(image, mask, { x, y }, plane, inner, outer);
    const step = solve(sums, -1);
    if (step === null) break;
    const length = Math.hypot(step[0], step[1]);
    const most = 0.5 * (coreRadius + 3);
    const factor = length > most ? most / length : 1;
    x += factor * step[0];
    y += factor * step[1];
    if (length < 1e-4) break;
  }
  const [sx, sy] = leaveOneOut(sums);
  return {
    x,
    y,
    standardUncertaintyX: Math.hypot(sx, LEAST_UNCERTAINTY),
    standardUncertaintyY: Math.hypot(sy, LEAST_UNCERTAINTY),
    fromPixels: inner,
    toPixels: outer,
  };
}

/** Normal equations of a shift, sector by sector: xx, xy, yy, x, y. */
function sectorSums(
  image: StarImage,
  mask: Uint8Array,
  { x, y }: Place,
  plane: Place,
  inner: number,
  outer: number,
): Float64Array {
  const { width, height, counts } = image;
  const rings = Math.ceil(outer) + 2;
  const lists: number[][] = Array.from({ length: rings }, () => []);
  const radii: number[][] = Array.from({ length: rings }, () => []);
  const points: { value: number; dx: number; dy: number; r: number }[] = [];
  for (let j = Math.max(0, Math.ceil(y - outer)); j <= Math.min(height - 1, y + outer); j++) {
    for (let i = Math.max(0, Math.ceil(x - outer)); i <= Math.min(width - 1, x + outer); i++) {
      const at = j * width + i;
      if (mask[at] !== 0) continue;
      const dx = i - x;
      const dy = j - y;
      const r = Math.sqrt(dx * dx + dy * dy);
      if (r > outer) continue;
      const value = counts[at]! - plane.x * dx - plane.y * dy;
      lists[Math.floor(r)]!.push(value);
      radii[Math.floor(r)]!.push(r);
      points.push({ value, dx, dy, r });
    }
  }
  const level = Float64Array.from(lists, (list) => (list.length >= 4 ? medianOf(list) : Number.NaN));
  const place = Float64Array.from(radii, (list, k) =>
    list.length > 0 ? list.reduce((sum, r) => sum + r, 0) / list.length : k + 0.5,
  );
  const last = Math.floor(outer) - 1;
  const floor = medianOf(level.subarray(Math.max(0, last - 2), last + 1));
  const noise = medianOf(lists[last]!.map((value) => Math.abs(value - level[last]!)));
  const sums = new Float64Array(SECTORS * 5);
  for (const { value, dx, dy, r } of points) {
    if (r < Math.max(inner, 0.7)) continue;
    let ring = Math.floor(r);
    if (r < place[ring]!) ring--;
    if (ring < 0 || ring + 1 >= level.length) continue;
    const [here, slope] = profileBetween(
      r,
      place[ring]!,
      place[ring + 1]!,
      level[ring]!,
      level[ring + 1]!,
      floor,
      noise,
    );
    if (Number.isNaN(here)) continue;
    const light = Math.max(0, here - floor);
    const sigma = Math.sqrt((1.4826 * noise) ** 2 + (ROUNDNESS * light) ** 2) || 1;
    const residual = value - here;
    const deviation = Math.abs(residual) / sigma;
    // A steep slope met off centre looks like a large residual: the bound is wide.
    const weight = (deviation > 8 ? 8 / deviation : 1) / (sigma * sigma);
    const gx = (-slope * dx) / r;
    const gy = (-slope * dy) / r;
    let sector = Math.floor((Math.atan2(dy, dx) / (2 * Math.PI) + 1) * SECTORS) % SECTORS;
    if (!(sector >= 0)) sector = 0;
    const k = sector * 5;
    sums[k]! += weight * gx * gx;
    sums[k + 1]! += weight * gx * gy;
    sums[k + 2]! += weight * gy * gy;
    sums[k + 3]! += weight * gx * residual;
    sums[k + 4]! += weight * gy * residual;
  }
  return sums;
}

/** Level and slope between two rings: along a power of the radius where the light is well above the noise. */
function profileBetween(
  r: number,
  r0: number,
  r1: number,
  a: number,
  b: number,
  floor: number,
  noise: number,
): [number, number] {
  if (Math.min(a, b) - floor > 5 * noise) {
    const power = Math.log((b - floor) / (a - floor)) / Math.log(r1 / r0);
    const light = (a - floor) * (r / r0) ** power;
    return [floor + light, (light * power) / r];
  }
  const slope = (b - a) / (r1 - r0);
  return [a + slope * (r - r0), slope];
}

function solve(sums: Float64Array, without: number): [number, number] | null {
  const total = new Float64Array(5);
  for (let s = 0; s < SECTORS; s++) {
    if (s !== without) for (let k = 0; k < 5; k++) total[k]! += sums[s * 5 + k]!;
  }
  const [xx, xy, yy, bx, by] = total as unknown as [number, number, number, number, number];
  const determinant = xx * yy - xy * xy;
  if (!(determinant > 1e-12 * xx * yy)) return null;
  return [(yy * bx - xy * by) / determinant, (xx * by - xy * bx) / determinant];
}

function leaveOneOut(sums: Float64Array): [number, number] {
  const steps = Array.from({ length: SECTORS }, (_, s) => solve(sums, s)).filter((step) => step !== null);
  if (steps.length < SECTORS / 2) return [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const deviation = (axis: 0 | 1): number => {
    const mean = steps.reduce((sum, step) => sum + step[axis], 0) / steps.length;
    const squares = steps.reduce((sum, step) => sum + (step[axis] - mean) ** 2, 0);
    return Math.sqrt((squares * (steps.length - 1)) / steps.length);
  };
  return [deviation(0), deviation(1)];
}

/**
 * Radius within which the saturated pixels hide too much of the star: beyond it at least 60 % of the sectors are free.
 *
 * @param mask - marks of the pixels
 * @param image - the picture
 * @param centre - of the star
 * @param largest - radius to begin with, pixels
 * @returns pixels, 0 where nothing is saturated
 */
export function hiddenRadius(image: StarImage, mask: Uint8Array, centre: Place, largest: number): number {
  const { width, height } = image;
  const most = Math.floor(Math.min(largest, width / 2, height / 2));
  for (let r = most; r >= 1; r--) {
    let hidden = 0;
    let seen = 0;
    const steps = Math.max(12, Math.ceil(6 * r));
    for (let k = 0; k < steps; k++) {
      const angle = (k * 2 * Math.PI) / steps;
      const x = Math.round(centre.x + r * Math.cos(angle));
      const y = Math.round(centre.y + r * Math.sin(angle));
      if (x < 0 || y < 0 || x >= width || y >= height) continue;
      seen++;
      if ((mask[y * width + x]! & PIXEL_SATURATED) !== 0) hidden++;
    }
    if (seen > 0 && hidden > 0.4 * seen) return r;
  }
  return 0;
}
