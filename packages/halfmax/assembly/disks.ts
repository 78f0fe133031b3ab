import { EDGE_REACH } from './edge';
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

export const RADIUS_FREE: i32 = 1;
export const HOLE_FREE: i32 = 2;
export const PLACE_FREE: i32 = 4;

/** Whether no edge of a disk reaches a ring: all its cells are in the disk or all are not. */
export function isEven(cells: RingCells, ring: usize, disk: Disk): bool {
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

/** Bytes of a disk's record. */
export const DISK: usize = offsetof<Disk>();

/** Whether no disk's edge reaches a ring. */
export function isEvenForAll(cells: RingCells, ring: usize, disks: usize, end: usize): bool {
  for (let at = disks; at < end; at += DISK) if (!isEven(cells, ring, changetype<Disk>(at))) return false;
  return true;
}
