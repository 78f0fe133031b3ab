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
  /** Standard deviation of its edges, pixels. */
  readonly blur: number;
  /** Whether the outer radius and the blur are fitted. */
  readonly radiusFree: boolean;
  readonly holeFree: boolean;
  readonly placeFree: boolean;
}

/** Root of 5: a cubic ramp of this many standard deviations to each side has that standard deviation. */
const RAMP = Math.sqrt(5);

/**
 * Share of a place that a disk covers, its edges softened, with derivatives.
 *
 * @param shape - of the disk
 * @param x - of the place from the star, pixels
 * @param y - of the place from the star, pixels
 * @param softness - standard deviation of the edges: width of the place and blur, pixels, > 0
 * @param out - length 6, filled with the share (0 to 1) and its derivatives by outer, inner, dx, dy, softness
 */
export function diskShare(shape: DiskShape, x: number, y: number, softness: number, out: Float64Array): void {
  const px = x - shape.dx;
  const py = y - shape.dy;
  const distance = Math.sqrt(px * px + py * py) || 1e-9;
  const reach = RAMP * softness;
  const outer = (shape.outer - distance) / reach;
  const inner = (shape.inner - distance) / reach;
  const outerSlope = rampSlope(outer) / reach;
  const innerSlope = shape.inner > 0 ? rampSlope(inner) / reach : 0;
  const along = outerSlope - innerSlope;
  out[0] = ramp(outer) - (shape.inner > 0 ? ramp(inner) : 0);
  out[1] = outerSlope;
  out[2] = -innerSlope;
  out[3] = (along * px) / distance;
  out[4] = (along * py) / distance;
  out[5] = (inner * innerSlope * reach - outer * outerSlope * reach) / softness;
}

/** 0 below -1, 1 above 1, a cubic between. */
function ramp(t: number): number {
  if (t <= -1) return 0;
  if (t >= 1) return 1;
  return 0.5 + 0.75 * t - 0.25 * t * t * t;
}

function rampSlope(t: number): number {
  return t <= -1 || t >= 1 ? 0 : 0.75 * (1 - t * t);
}

/**
 * Light of a disk in each ring, for a surface brightness of 1: mean over the ring.
 *
 * @param shape - of the disk
 * @param radius - of the rings, pixels
 * @param width - of the rings, pixels
 * @param blur - standard deviation of the edges, pixels
 * @returns length of radius, 0 to 1
 */
export function diskColumn(
  shape: DiskShape,
  radius: Float64Array,
  width: Float64Array,
  blur: number,
): Float64Array {
  return diskColumns(shape, radius, width, blur)[0]!;
}

const PLACES = 36;

/**
 * Light of a disk in each ring and its derivatives by the outer and the inner radius: means over the ring.
 *
 * @param shape - of the disk
 * @param radius - of the rings, pixels
 * @param width - of the rings, pixels
 * @param blur - standard deviation of the edges, pixels
 * @returns three columns, each of the length of radius
 */
export function diskColumns(
  shape: DiskShape,
  radius: Float64Array,
  width: Float64Array,
  blur: number,
): [Float64Array, Float64Array, Float64Array] {
  const n = radius.length;
  const columns: [Float64Array, Float64Array, Float64Array] = [
    new Float64Array(n),
    new Float64Array(n),
    new Float64Array(n),
  ];
  const places = shape.dx === 0 && shape.dy === 0 ? 1 : PLACES;
  const out = new Float64Array(6);
  for (let s = 0; s < places; s++) {
    const angle = ((s + 0.5) * 2 * Math.PI) / places;
    const c = Math.cos(angle);
    const d = Math.sin(angle);
    const across = ((shape.dx * d - shape.dy * c) * 2 * Math.PI) / PLACES;
    for (let i = 0; i < n; i++) {
      const softness = Math.sqrt((width[i]! ** 2 + across * across) / 12 + blur * blur);
      diskShare(shape, radius[i]! * c, radius[i]! * d, softness, out);
      for (let k = 0; k < 3; k++) columns[k]![i]! += out[k]! / places;
    }
  }
  return columns;
}
