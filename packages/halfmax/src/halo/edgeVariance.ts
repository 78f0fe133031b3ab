import type { DiskStart } from './diskShape.js';
import type { RingTable } from './ringTable.js';

/**
 * By how much the light at a disk's edge differs from the one that is fitted, as a share of its surface brightness:
 * seeing changes its wings, telescopes are a little out of shape. Found with edges of normal and Moffat profiles.
 */
const EDGE_SHARE = 0.02;
/** Within how many widths of the edge, as a standard deviation. */
const EDGE_WIDTHS = 2;

/** Beyond so many of those nothing is left: 1e-18. */
const OVER = 9;

/**
 * Variance of the cells with what is not known of the shape of the disks' edges. That is alike in all sectors of a
 * ring, so each cell bears as much more as there are sectors.
 *
 * @param table - cells and their own variance
 * @param places - of the cells from the star, pixels
 * @param disks - as far as known
 * @returns counts squared, length as the cells
 */
export function edgeVariance(
  table: Pick<RingTable, 'sectors' | 'width' | 'variance'>,
  { x, y }: { readonly x: Float64Array; readonly y: Float64Array },
  disks: readonly DiskStart[],
): Float64Array {
  const { sectors, width } = table;
  const variance = table.variance.slice();
  for (const { surface, outer, inner, dx, dy, blur } of disks) {
    for (let i = 0; i < width.length; i++) {
      const reach = EDGE_WIDTHS * Math.sqrt(blur * blur + width[i]! ** 2 / 12);
      for (let k = i * sectors; k < (i + 1) * sectors; k++) {
        const px = x[k]! - dx;
        const py = y[k]! - dy;
        const distance = Math.sqrt(px * px + py * py);
        const fromOuter = (distance - outer) / reach;
        const fromInner = inner > 0 ? (distance - inner) / reach : OVER;
        const isFar = Math.abs(fromOuter) >= OVER && Math.abs(fromInner) >= OVER;
        if (isFar) continue;
        const beyond = Math.exp(-0.5 * fromOuter * fromOuter);
        const within = inner > 0 ? Math.exp(-0.5 * fromInner * fromInner) : 0;
        variance[k]! += sectors * (EDGE_SHARE * surface * (beyond + within)) ** 2;
      }
    }
  }
  return variance;
}
