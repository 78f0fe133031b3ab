import type { VectorMemory } from '../vector/index.js';
import { columnsOf, padded } from './paddedRings.js';
import type { RingTable } from './ringTable.js';

/** Cells of a fit: their places from the star, background and wings. */
export interface RingCells {
  /** Numbers of background and wings. */
  readonly fixed: number;
  /** Pixels. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Background and wings of each cell, `fixed` numbers each. */
  readonly rows: Float64Array;
  /** Of each ring: least and largest radius of its cells in use, pixels. */
  readonly nearest: Float64Array;
  readonly farthest: Float64Array;
}

/** Where the cells lie. */
export interface RingPlaces {
  /** Of `RingCells` in `assembly/ringCells.ts`. */
  readonly record: number;
  /** Of the weights of the cells. */
  readonly weights: number;
  /** Of what rings bring as a whole: weight, residual, squares, rows, scores, products. */
  readonly sums: readonly { readonly at: number; readonly length: number }[];
  /** Cells that each ring has there. */
  readonly width: number;
}

/** Writes cells as `assembly/ringCells.ts` describes them; room for disks is still missing. */
export function putRings(vector: VectorMemory, table: RingTable, cells: RingCells): RingPlaces {
  const { put, take } = vector;
  const { sectors, counts, cellRadius } = table;
  const { fixed, rows } = cells;
  const rings = table.radius.length;
  const width = sectors + (sectors % 2);
  const used = counts.map((value) => (Number.isNaN(value) ? 0 : value));
  const radius = cellRadius.map((value, k) => (Number.isNaN(counts[k]!) || value === 0 ? 1 : value));
  const weights = take(8 * rings * width);
  const sums = [1, 1, 1, fixed, fixed, fixed * fixed].map((count) => ({
    at: take(8 * rings * count),
    length: rings * count,
  }));
  const column = (): number => take(8 * width);
  const record = put(
    Int32Array.of(
      rings,
      width,
      fixed,
      0,
      ...new Int32Array(Float64Array.of((2 * Math.PI) / sectors).buffer),
      put(padded(cells.x, sectors, width, 0)),
      put(padded(cells.y, sectors, width, 0)),
      put(padded(radius, sectors, width, 1)),
      put(padded(used, sectors, width, 0)),
      weights,
      put(columnsOf(rows, fixed, sectors, width)),
      put(table.width),
      put(cells.nearest),
      put(cells.farthest),
      ...sums.map(({ at }) => at),
      column(),
      column(),
      ...NO_DISKS,
    ),
  );
  return { record, weights, sums, width };
}

/** Places of what `diskRoom` fills in: columns of the disks' parameters, the same weighted, places of the parameters. */
const NO_DISKS = [0, 0, 0];
/** Where they begin in the record, bytes. */
export const DISK_POINTERS: number = 4 * 23;
