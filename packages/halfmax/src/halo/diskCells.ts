import type { Layout } from './diskLayout.js';
import { type DiskStart, diskShare, shareDoubt } from './diskShape.js';
import type { RingCells } from './putRings.js';
import type { RingTable } from './ringTable.js';
import type { RingVectors } from './ringVectors.js';

/** What does not change while disks are fitted. */
export interface StaticCells extends RingCells {
  /** What the vector code does with them. */
  readonly vectors: RingVectors;
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
