import { normalCdf } from '../numeric/index.js';

/** A uniform disk with a hole, possibly off the star's centre. Lengths in pixels. */
export interface DiskShape {
  readonly inner: number;
  readonly outer: number;
  /** Displacement of its middle from the star. */
  readonly dx: number;
  readonly dy: number;
}

/** A disk to be fitted, and what of it is free. */
export interface DiskStart extends DiskShape {
  /** Counts a pixel. */
  readonly surface: number;
  /** Softness of its edges, pixels: standard deviation of the normal law as steep. */
  readonly blur: number;
  /** Whether the outer radius and the blur are fitted. */
  readonly radiusFree: boolean;
  readonly holeFree: boolean;
  readonly placeFree: boolean;
}

/**
 * Share of a place that a disk covers, its edges softened by seeing, with derivatives.
 *
 * A disk's edge is blurred as the star is: by a core with wings. It is the line integral of a Moffat profile of power
 * 4, in closed form, made as steep in the middle as a normal law of the softness. With normal edges, whose wings are
 * missing, disks come out 1 % too faint.
 *
 * @param shape - of the disk
 * @param x - of the place from the star, pixels
 * @param y - of the place from the star, pixels
 * @param softness - standard deviation of the normal law as steep: width of the place and blur, pixels, > 0
 * @param out - length 6, filled with the share (0 to 1) and its derivatives by outer, inner, dx, dy, softness
 *
 * Source: Moffat, A&A 3, 455 (1969); powers that seeing gives: 4.8 by the theory of turbulence, Trujillo, Aguerri, Cepa,
 * Gutierrez, MNRAS 328, 977 (2001), 2.5 to 4 in pictures, common practice; these values from memory.
 */
export function diskShare(shape: DiskShape, x: number, y: number, softness: number, out: Float64Array): void {
  const px = x - shape.dx;
  const py = y - shape.dy;
  const distance = Math.sqrt(px * px + py * py) || 1e-9;
  const outer = (shape.outer - distance) / softness;
  const inner = shape.inner > 0 ? (shape.inner - distance) / softness : Number.NEGATIVE_INFINITY;
  const outerDensity = edgeDensity(outer);
  const innerDensity = edgeDensity(inner);
  const along = (outerDensity - innerDensity) / softness;
  out[0] = edgeShare(outer) - edgeShare(inner);
  out[1] = outerDensity / softness;
  out[2] = -innerDensity / softness;
  out[3] = (along * px) / distance;
  out[4] = (along * py) / distance;
  out[5] = ((innerDensity === 0 ? 0 : inner * innerDensity) - outer * outerDensity) / softness;
}

/** Beyond this many standard deviations an edge is over: 3e-5 of the light is further. */
export const EDGE_REACH = 10;
const ROOT_TWO_PI = 2.5066282746310002;
/** Integral of (1 + u^2)^(-7/2) is 16/15. */
const HEIGHT = 15 / 16;
/** Width of the profile over the standard deviation of the normal law as steep. */
const WIDTH = HEIGHT * ROOT_TWO_PI;

/** Density of light across an edge, t standard deviations within it. */
function edgeDensity(t: number): number {
  if (t > EDGE_REACH || t < -EDGE_REACH) return 0;
  const u = t / WIDTH;
  const square = 1 / (1 + u * u);
  return (square * square * square * Math.sqrt(square)) / ROOT_TWO_PI;
}

/** Share of the light, t standard deviations within an edge: the integral of the density. */
function edgeShare(t: number): number {
  if (t > EDGE_REACH) return 1;
  if (t < -EDGE_REACH) return 0;
  const u = t / WIDTH;
  const sine = u / Math.sqrt(1 + u * u);
  const square = sine * sine;
  return 0.5 + HEIGHT * sine * (1 - square * (2 / 3 - square / 5));
}

/** Width of a Moffat profile of power 2.5 over the standard deviation of the normal law as steep. */
const LOW_WIDTH = (2 / Math.PI) * ROOT_TWO_PI;

/**
 * What is not known of a disk's share of a place, the shape of its edges being what seeing and optics make it: from a
 * Moffat profile of power 2.5 to a normal law, all as steep, each as likely as the other.
 *
 * @param shape - of the disk
 * @param x - of the place from the star, pixels
 * @param y - of the place from the star, pixels
 * @param softness - as for `diskShare`
 * @returns standard uncertainty, with its sign, which is common to all places
 *
 * Source: half the range over the root of 3: JCGM 100:2008 (GUM), 4.3.7.
 */
export function shareDoubt(shape: DiskShape, x: number, y: number, softness: number): number {
  const px = x - shape.dx;
  const py = y - shape.dy;
  const distance = Math.sqrt(px * px + py * py);
  const doubt = (t: number): number => {
    if (t > EDGE_REACH || t < -EDGE_REACH) return 0;
    const u = t / LOW_WIDTH;
    const low = 0.5 + (Math.atan(u) + u / (1 + u * u)) / Math.PI;
    return (low - normalCdf(t)) / 2 / Math.sqrt(3);
  };
  const outer = doubt((shape.outer - distance) / softness);
  return shape.inner > 0 ? outer - doubt((shape.inner - distance) / softness) : outer;
}

/**
 * Light of a disk in each ring, for a surface brightness of 1: mean over the ring.
 *
 * @param shape - of the disk
 * @param radius - of the rings, pixels
 * @param width - of the rings, pixels
 * @param blur - softness of the edges, pixels
 * @returns length of radius, 0 to 1
 */
export function diskColumn(
  shape: DiskShape,
  radius: Float64Array,
  width: Float64Array,
  blur: number,
): Float64Array {
  return firstColumns(shape, radius, width, blur, 1)[0]!;
}

const PLACES = 36;

/**
 * Light of a disk in each ring and its derivatives by the outer and the inner radius: means over the ring.
 *
 * @param shape - of the disk
 * @param radius - of the rings, pixels
 * @param width - of the rings, pixels
 * @param blur - softness of the edges, pixels
 * @returns three columns, each of the length of radius
 */
export function diskColumns(
  shape: DiskShape,
  radius: Float64Array,
  width: Float64Array,
  blur: number,
): [Float64Array, Float64Array, Float64Array] {
  return firstColumns(shape, radius, width, blur, 3) as [Float64Array, Float64Array, Float64Array];
}

/** The first of those columns: the thousands of disks of a search need no derivatives. */
function firstColumns(
  shape: DiskShape,
  radius: Float64Array,
  width: Float64Array,
  blur: number,
  count: number,
): Float64Array[] {
  const n = radius.length;
  const columns = Array.from({ length: count }, () => new Float64Array(n));
  const places = shape.dx === 0 && shape.dy === 0 ? 1 : PLACES;
  const displaced = Math.hypot(shape.dx, shape.dy);
  const most = (displaced * 2 * Math.PI) / PLACES;
  const widest = width.reduce((largest, value) => Math.max(largest, value), 0);
  const farthest = displaced + EDGE_REACH * Math.sqrt((widest * widest + most * most) / 12 + blur * blur);
  const cosines = new Float64Array(places);
  const sines = new Float64Array(places);
  for (let s = 0; s < places; s++) {
    const angle = ((s + 0.5) * 2 * Math.PI) / places;
    cosines[s] = Math.cos(angle);
    sines[s] = Math.sin(angle);
  }
  for (let i = 0; i < n; i++) {
    const r = radius[i]!;
    // Most rings are further from an edge than any ring is reached by one.
    if (r > shape.outer + farthest || r < shape.inner - farthest) continue;
    if (r < shape.outer - farthest && (shape.inner <= 0 || r > shape.inner + farthest)) {
      columns[0]![i] = 1;
      continue;
    }
    // Further than this from an edge a ring is all in the disk or all out of it.
    const square = width[i]! * width[i]!;
    const reach = displaced + EDGE_REACH * Math.sqrt((square + most * most) / 12 + blur * blur);
    const isOutside = r > shape.outer + reach || r < shape.inner - reach;
    const isInside = r < shape.outer - reach && (shape.inner <= 0 || r > shape.inner + reach);
    if (isOutside || isInside) {
      columns[0]![i] = isInside ? 1 : 0;
      continue;
    }
    addMeans(shape, r, square, blur, cosines, sines, columns, i);
  }
  return columns;
}

const share = new Float64Array(6);

/** Fills in the columns of a ring that an edge reaches: means over places along it. `square` is that of its width. */
function addMeans(
  shape: DiskShape,
  r: number,
  square: number,
  blur: number,
  cosines: Float64Array,
  sines: Float64Array,
  columns: readonly Float64Array[],
  ring: number,
): void {
  const places = cosines.length;
  for (let s = 0; s < places; s++) {
    const c = cosines[s]!;
    const d = sines[s]!;
    const across = ((shape.dx * d - shape.dy * c) * 2 * Math.PI) / PLACES;
    const softness = Math.sqrt((square + across * across) / 12 + blur * blur);
    diskShare(shape, r * c, r * d, softness, share);
    for (let k = 0; k < columns.length; k++) columns[k]![ring]! += share[k]! / places;
  }
}
