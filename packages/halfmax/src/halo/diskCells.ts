import type { Layout } from './diskLayout.js';
import { type DiskStart, diskShare, EDGE_REACH, shareDoubt } from './diskShape.js';
import type { RingTable } from './ringTable.js';
import type { WingModel } from './wings.js';

/** What does not change while disks are fitted. */
export interface StaticCells {
  /** Numbers of background and wings. */
  readonly fixed: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Background and wings of each cell, `fixed` numbers each. */
  readonly rows: Float64Array;
  /** Of each ring: its first cell in use, least and largest radius of those in use. */
  readonly first: Int32Array;
  readonly nearest: Float64Array;
  readonly farthest: Float64Array;
}

/** Background and wings of each cell. */
export function staticCells(table: RingTable, wings: WingModel): StaticCells {
  const { sectors, cellRadius, counts } = table;
  const fixed = 3 + wings.size;
  const length = cellRadius.length;
  const rings = length / sectors;
  const x = new Float64Array(length);
  const y = new Float64Array(length);
  const rows = new Float64Array(length * fixed);
  const first = new Int32Array(rings).fill(-1);
  const nearest = new Float64Array(rings).fill(Number.POSITIVE_INFINITY);
  const farthest = new Float64Array(rings);
  const angles = Array.from({ length: sectors }, (_, s) => ((s + 0.5) * 2 * Math.PI) / sectors);
  const cosines = angles.map(Math.cos);
  const sines = angles.map(Math.sin);
  for (let k = 0; k < length; k++) {
    if (Number.isNaN(counts[k]!)) continue;
    const r = cellRadius[k] || 1;
    const s = k % sectors;
    const i = (k - s) / sectors;
    x[k] = r * cosines[s]!;
    y[k] = r * sines[s]!;
    rows[k * fixed] = 1;
    rows[k * fixed + 1] = x[k]!;
    rows[k * fixed + 2] = y[k]!;
    wings.at(r, rows, k * fixed + 3);
    if (first[i] === -1) first[i] = k;
    if (r < nearest[i]!) nearest[i] = r;
    if (r > farthest[i]!) farthest[i] = r;
  }
  return { fixed, x, y, rows, first, nearest, farthest };
}

/** Whether no edge of a disk reaches a ring: all its cells are in the disk or all are not. */
export function isEvenRing(table: RingTable, cells: StaticCells, ring: number, disk: DiskStart): boolean {
  const displaced = Math.sqrt(disk.dx * disk.dx + disk.dy * disk.dy);
  const across = (displaced * 2 * Math.PI) / table.sectors;
  const reach = EDGE_REACH * Math.sqrt((table.width[ring]! ** 2 + across * across) / 12 + disk.blur ** 2);
  const from = cells.nearest[ring]! - displaced - reach;
  const to = cells.farthest[ring]! + displaced + reach;
  return (disk.outer < from || disk.outer > to) && (disk.inner <= 0 || disk.inner < from || disk.inner > to);
}

const share = new Float64Array(6);

/** Fills the disks' part of a row (derivatives by the parameters) and returns the disks' light in a cell. */
export function diskRow(
  table: RingTable,
  cells: StaticCells,
  layout: Layout,
  k: number,
  disks: readonly DiskStart[],
  row: Float64Array,
): number {
  const x = cells.x[k]!;
  const y = cells.y[k]!;
  let light = 0;
  for (let d = 0; d < disks.length; d++) {
    const disk = disks[d]!;
    const softness = softnessAt(table, x, y, k, disk);
    diskShare(disk, x, y, softness, share);
    light += disk.surface * share[0]!;
    let at = layout.begins[d]!;
    row[at++] = share[0]!;
    if (disk.radiusFree) {
      row[at++] = disk.surface * share[1]!;
      row[at++] = (disk.surface * share[5]! * disk.blur) / softness;
    }
    if (disk.holeFree) row[at++] = disk.surface * share[2]!;
    if (disk.placeFree) {
      row[at++] = disk.surface * share[3]!;
      row[at++] = disk.surface * share[4]!;
    }
  }
  return light;
}

/** Softness of a disk's edges as a cell shows them, pixels. */
function softnessAt(table: RingTable, x: number, y: number, k: number, disk: DiskStart): number {
  const width = table.width[Math.floor(k / table.sectors)]!;
  // Along the arc of a cell the distance from a displaced middle changes.
  const across =
    disk.dx === 0 && disk.dy === 0
      ? 0
      : ((disk.dx * y - disk.dy * x) * 2 * Math.PI) / table.sectors / Math.sqrt(x * x + y * y);
  return Math.sqrt((width * width + across * across) / 12 + disk.blur * disk.blur);
}

/** What is not known of the disks' light in a cell, the shape of their edges being uncertain: counts, one sign for all. */
export function lightDoubt(
  table: RingTable,
  cells: StaticCells,
  k: number,
  disks: readonly DiskStart[],
): number {
  const x = cells.x[k]!;
  const y = cells.y[k]!;
  return disks.reduce(
    (sum, disk) => sum + disk.surface * shareDoubt(disk, x, y, softnessAt(table, x, y, k, disk)),
    0,
  );
}

/** Value of the model at a cell; fills `row` with its derivatives. */
export function evaluate(
  table: RingTable,
  cells: StaticCells,
  layout: Layout,
  k: number,
  theta: Float64Array,
  disks: readonly DiskStart[],
  row: Float64Array,
): number {
  const { fixed } = layout;
  let value = diskRow(table, cells, layout, k, disks, row);
  for (let j = 0; j < fixed; j++) {
    row[j] = cells.rows[k * fixed + j]!;
    value += theta[j]! * row[j]!;
  }
  return value;
}

/** Adds a row to normal equations; the lower half of the matrix is filled. */
export function addTo(
  matrix: Float64Array,
  right: Float64Array,
  row: Float64Array,
  weight: number,
  residual: number,
  p: number,
): void {
  for (let a = 0; a < p; a++) {
    const factor = weight * row[a]!;
    if (factor === 0) continue; // a disk that does not reach here
    right[a]! += factor * residual;
    const base = a * p;
    for (let b = 0; b <= a; b++) matrix[base + b]! += factor * row[b]!;
  }
}
