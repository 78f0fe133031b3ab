import type { DiskStart } from './diskShape.js';
import type { RingTable } from './ringTable.js';

/** A disk moves at most this share of its outer radius from the star. */
const MOST_DISPLACED = 0.4;
/** Edges are at least this soft, pixels, and at most this share of the outer radius. */
const LEAST_BLUR = 0.25;
const MOST_BLUR = 0.08;

/** Where the parameters lie. */
export interface Layout {
  /** Of the background and the wings. */
  readonly fixed: number;
  readonly begins: readonly number[];
  readonly size: number;
}

/** Sorts the parameters. */
export function layOut(starts: readonly DiskStart[], fixed: number): Layout {
  const begins: number[] = [];
  let size = fixed;
  for (const start of starts) {
    begins.push(size);
    size += 1 + (start.radiusFree ? 2 : 0) + (start.holeFree ? 1 : 0) + (start.placeFree ? 2 : 0);
  }
  return { fixed, begins, size };
}

/**
 * Disks from the parameters of a fit.
 *
 * @param theta - parameters as in a fit
 * @param starts - which of them are free
 * @param begins - where those of each disk begin
 * @returns one disk for each start
 */
export function disksFrom(
  theta: Float64Array,
  starts: readonly DiskStart[],
  begins: readonly number[],
): DiskStart[] {
  return starts.map((start, d) => {
    let at = begins[d]!;
    const surface = theta[at++]!;
    const outer = start.radiusFree ? theta[at++]! : start.outer;
    const blur = start.radiusFree ? theta[at++]! : start.blur;
    const inner = start.holeFree ? theta[at++]! : start.inner;
    const dx = start.placeFree ? theta[at++]! : start.dx;
    const dy = start.placeFree ? theta[at]! : start.dy;
    // Written out: all disks are then records of one kind, which the loops over cells read quickly.
    const { radiusFree, holeFree, placeFree } = start;
    return { inner, outer, dx, dy, surface, blur, radiusFree, holeFree, placeFree };
  });
}

/** Keeps parameters in the range of the rings; alters and returns `theta`. */
export function bounded(
  theta: Float64Array,
  starts: readonly DiskStart[],
  begins: readonly number[],
  table: RingTable,
): Float64Array {
  const first = table.radius[0]! - table.width[0]! / 2;
  const last = table.radius[table.radius.length - 1]!;
  starts.forEach((start, d) => {
    let place = begins[d]! + 1;
    let outer = start.outer;
    if (start.radiusFree) {
      outer = Math.max(first + 2, Math.min(last, theta[place]!));
      theta[place++] = outer;
      theta[place] = Math.max(LEAST_BLUR, Math.min(MOST_BLUR * outer, theta[place]!));
      place++;
    }
    if (start.holeFree) {
      theta[place] = Math.max(first, Math.min(outer - 1, theta[place]!));
      place++;
    }
    if (!start.placeFree) return;
    const length = Math.hypot(theta[place]!, theta[place + 1]!);
    const most = MOST_DISPLACED * outer;
    if (length <= most) return;
    theta[place]! *= most / length;
    theta[place + 1]! *= most / length;
  });
  return theta;
}
