import { RingCells } from './ringCells';

/** A disk as a fit has it. Lengths in pixels. */
@unmanaged
export class Disk {
  inner: f64;
  outer: f64;
  dx: f64;
  dy: f64;
  surface: f64;
  blur: f64;
  /** First of its parameters. */
  begin: i32;
  /** Bits: 1 outer radius and blur are fitted, 2 the hole, 4 the place. */
  free: i32;
}

const RADIUS_FREE: i32 = 1;
const HOLE_FREE: i32 = 2;
const PLACE_FREE: i32 = 4;

/** The numbers of `src/halo/diskShape.ts`, where the law of an edge is told. */
const EDGE_REACH: f64 = 10;
const ROOT_TWO_PI: f64 = 2.5066282746310002;
const HEIGHT: f64 = 15.0 / 16;
const WIDTH: f64 = HEIGHT * ROOT_TWO_PI;

/** Whether no edge of a disk reaches a ring: all its cells are in the disk or all are not. */
function isEven(cells: RingCells, ring: usize, disk: Disk): bool {
  const displaced = sqrt(disk.dx * disk.dx + disk.dy * disk.dy);
  const across = displaced * cells.sectorAngle;
  const width = load<f64>(cells.width + (ring << 3));
  const reach = EDGE_REACH * sqrt((width * width + across * across) / 12 + disk.blur * disk.blur);
  const from = load<f64>(cells.nearest + (ring << 3)) - displaced - reach;
  const to = load<f64>(cells.farthest + (ring << 3)) + displaced + reach;
  return (
    (disk.outer < from || disk.outer > to) && (disk.inner <= 0 || disk.inner < from || disk.inner > to)
  );
}

/** Share of an even ring that a disk covers: 0 or 1. */
export function evenShare(cells: RingCells, ring: usize, disk: Disk): f64 {
  const place = load<f64>(cells.nearest + (ring << 3));
  return place < disk.outer && (disk.inner <= 0 || place > disk.inner) ? 1 : 0;
}

/**
 * Columns of a disk for the cells of a ring, one for each of its parameters: what the light of a cell changes by.
 * Adds the light. Columns lie `stride` bytes apart from `at` on.
 */
function fillColumns(cells: RingCells, ring: usize, disk: Disk, at: usize, light: usize): void {
  const stride = usize(cells.padded) << 3;
  const first = ring * stride;
  const width = load<f64>(cells.width + (ring << 3));
  const ofWidth = f64x2.splat((width * width) / 12 + disk.blur * disk.blur);
  const dx = f64x2.splat(disk.dx);
  const dy = f64x2.splat(disk.dy);
  const outer = f64x2.splat(disk.outer);
  const inner = f64x2.splat(disk.inner);
  const surface = f64x2.splat(disk.surface);
  const blur = f64x2.splat(disk.surface * disk.blur);
  const one = f64x2.splat(1);
  const zero = f64x2.splat(0);
  const isMoved = disk.dx != 0 || disk.dy != 0;
  const hasHole = disk.inner > 0;
  const ofAngle = f64x2.splat(cells.sectorAngle * cells.sectorAngle / 12);
  for (let k: usize = 0; k < stride; k += 16) {
    const x = v128.load(cells.x + first + k);
    const y = v128.load(cells.y + first + k);
    const px = f64x2.sub(x, dx);
    const py = f64x2.sub(y, dy);
    const distance = f64x2.max(
      f64x2.sqrt(f64x2.add(f64x2.mul(px, px), f64x2.mul(py, py))),
      f64x2.splat(1e-9),
    );
    let variance = ofWidth;
    if (isMoved) {
      // Along the arc of a cell the distance from a displaced middle changes.
      const across = f64x2.div(
        f64x2.sub(f64x2.mul(dx, y), f64x2.mul(dy, x)),
        v128.load(cells.radius + first + k),
      );
      variance = f64x2.add(variance, f64x2.mul(ofAngle, f64x2.mul(across, across)));
    }
    const sharp = f64x2.div(one, f64x2.sqrt(variance));
    const within = f64x2.mul(f64x2.sub(outer, distance), sharp);
    const reached = isReached(within);
    const u = f64x2.mul(within, f64x2.splat(1 / WIDTH));
    const square = nearness(u);
    const root = f64x2.sqrt(square);
    let covered = shareOf(u, root, reached);
    const outerDensity = densityOf(square, root, reached);
    let innerDensity = zero;
    let bent = f64x2.neg(f64x2.mul(within, outerDensity));
    if (hasHole) {
      const beyond = f64x2.mul(f64x2.sub(inner, distance), sharp);
      const reached = isReached(beyond);
      const u = f64x2.mul(beyond, f64x2.splat(1 / WIDTH));
      const square = nearness(u);
      const root = f64x2.sqrt(square);
      covered = f64x2.sub(covered, shareOf(u, root, reached));
      innerDensity = densityOf(square, root, reached);
      bent = f64x2.add(bent, f64x2.mul(beyond, innerDensity));
    }
    v128.store(light + k, f64x2.add(v128.load(light + k), f64x2.mul(surface, covered)));
    let to = at + k;
    v128.store(to, covered);
    to += stride;
    const bright = f64x2.mul(surface, sharp);
    if (disk.free & RADIUS_FREE) {
      v128.store(to, f64x2.mul(bright, outerDensity));
      v128.store(to + stride, f64x2.mul(f64x2.mul(blur, sharp), f64x2.mul(bent, sharp)));
      to += 2 * stride;
    }
    if (disk.free & HOLE_FREE) {
      v128.store(to, f64x2.neg(f64x2.mul(bright, innerDensity)));
      to += stride;
    }
    if (disk.free & PLACE_FREE) {
      const along = f64x2.div(f64x2.mul(bright, f64x2.sub(outerDensity, innerDensity)), distance);
      v128.store(to, f64x2.mul(along, px));
      v128.store(to + stride, f64x2.mul(along, py));
    }
  }
}

/** Square of how near an edge is, so many widths from it: 1 on it, 0 far off. */
// @ts-ignore: decorator
@inline
function nearness(u: v128): v128 {
  const one = f64x2.splat(1);
  return f64x2.div(one, f64x2.add(one, f64x2.mul(u, u)));
}

/** All bits where an edge is within reach, so many standard deviations from it. */
// @ts-ignore: decorator
@inline
function isReached(t: v128): v128 {
  return f64x2.le(f64x2.abs(t), f64x2.splat(EDGE_REACH));
}

/** Density of light across an edge. */
// @ts-ignore: decorator
@inline
function densityOf(square: v128, root: v128, reached: v128): v128 {
  const cube = f64x2.mul(f64x2.mul(square, square), square);
  return v128.and(reached, f64x2.mul(f64x2.mul(cube, root), f64x2.splat(1 / ROOT_TWO_PI)));
}

/** Share of the light within an edge. */
// @ts-ignore: decorator
@inline
function shareOf(u: v128, root: v128, reached: v128): v128 {
  const one = f64x2.splat(1);
  const sine = f64x2.mul(u, root);
  const squared = f64x2.mul(sine, sine);
  const bend = f64x2.sub(f64x2.splat(2.0 / 3), f64x2.mul(squared, f64x2.splat(0.2)));
  const share = f64x2.add(
    f64x2.splat(0.5),
    f64x2.mul(f64x2.mul(f64x2.splat(HEIGHT), sine), f64x2.sub(one, f64x2.mul(squared, bend))),
  );
  const far = v128.and(f64x2.gt(u, f64x2.splat(0)), one);
  return v128.bitselect(share, far, reached);
}

/** Bytes of a disk's record. */
export const DISK: usize = offsetof<Disk>();

/**
 * The disks' light in the cells of a ring that an edge reaches, and what they answer to: columns, with the places of
 * their parameters. Gives the number of columns.
 */
export function lightUneven(cells: RingCells, ring: usize, disks: usize, end: usize): usize {
  const stride = usize(cells.padded) << 3;
  memory.fill(cells.light, 0, stride);
  let many: usize = 0;
  for (let at = disks; at < end; at += DISK) {
    const disk = changetype<Disk>(at);
    const answers = cells.answers + many * stride;
    let size: usize = 1;
    if (!isEven(cells, ring, disk)) {
      fillColumns(cells, ring, disk, answers, cells.light);
      if (disk.free & RADIUS_FREE) size += 2;
      if (disk.free & HOLE_FREE) size++;
      if (disk.free & PLACE_FREE) size += 2;
    } else {
      if (evenShare(cells, ring, disk) == 0) continue;
      for (let k: usize = 0; k < stride; k += 8) {
        store<f64>(answers + k, 1);
        store<f64>(cells.light + k, load<f64>(cells.light + k) + disk.surface);
      }
    }
    for (let j: usize = 0; j < size; j++)
      store<i32>(cells.touched + ((many + j) << 2), disk.begin + i32(j));
    many += size;
  }
  return many;
}

/** Whether no disk's edge reaches a ring. */
export function isEvenForAll(cells: RingCells, ring: usize, disks: usize, end: usize): bool {
  for (let at = disks; at < end; at += DISK) if (!isEven(cells, ring, changetype<Disk>(at))) return false;
  return true;
}
