import type { StaticCells } from './diskCells.js';
import type { RingTable } from './ringTable.js';
import { ringVectors } from './ringVectors.js';
import type { WingModel } from './wings.js';

/**
 * Background and wings of each cell.
 *
 * @param table - cells that are fitted
 * @param wings - model of the wings
 * @returns what does not change while disks are fitted
 */
export function staticCells(table: RingTable, wings: WingModel): StaticCells {
  const { sectors, cellRadius, counts } = table;
  const fixed = 3 + wings.size;
  const length = cellRadius.length;
  const rings = length / sectors;
  const x = new Float64Array(length);
  const y = new Float64Array(length);
  const rows = new Float64Array(length * fixed);
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
    if (r < nearest[i]!) nearest[i] = r;
    if (r > farthest[i]!) farthest[i] = r;
  }
  const cells = { fixed, x, y, rows, nearest, farthest };
  return { ...cells, vectors: ringVectors(table, cells) };
}
