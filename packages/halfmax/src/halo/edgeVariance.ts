import type { DiskStart } from './diskShape.js';
import type { RingTable } from './ringTable.js';

/**
 * By how much the light at a disk's edge differs from the one that is fitted, as a share of its surface brightness:
 * seeing changes its wings, telescopes are a little out of shape. Found with edges of normal and Moffat profiles.
 */
const EDGE_SHARE = 0.02;
/** Within how many widths of the edge, as a standard deviation. */
const EDGE_WIDTHS = 2;

/**
 * Variance of the cells with what is not known of the shape of the disks' edges. That is alike in all sectors of a
 * ring, so each cell bears as much more as there are sectors.
 *
 * @param table - cells and their own variance
 * @param disks - as far as known
 * @returns counts squared, length as the cells
 */
export function edgeVariance(table: RingTable, disks: readonly DiskStart[]): Float64Array {
  const { sectors, cellRadius, width } = table;
  const variance = table.variance.slice();
  for (const { surface, outer, inner, dx, dy, blur } of disks) {
    for (let k = 0; k < variance.length; k++) {
      const r = cellRadius[k]!;
      const angle = (((k % sectors) + 0.5) * 2 * Math.PI) / sectors;
      const distance = Math.hypot(r * Math.cos(angle) - dx, r * Math.sin(angle) - dy);
      const reach = EDGE_WIDTHS * Math.hypot(blur, width[Math.floor(k / sectors)]! / Math.sqrt(12));
      const beyond = Math.exp(-0.5 * ((distance - outer) / reach) ** 2);
      const within = inner > 0 ? Math.exp(-0.5 * ((distance - inner) / reach) ** 2) : 0;
      variance[k]! += sectors * (EDGE_SHARE * surface * (beyond + within)) ** 2;
    }
  }
  return variance;
}
