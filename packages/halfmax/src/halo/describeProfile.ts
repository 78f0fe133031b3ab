import { quantity } from '../metrics/index.js';
import type { ProfileRing } from './haloMeasurement.js';
import { type HaloUnits, surfaceQuantity } from './haloUnits.js';
import type { PolarGrid } from './polarGrid.js';
import { ringTable } from './ringTable.js';
import type { DiskSearch } from './searchDisks.js';

/**
 * Azimuthal median profile with the model of each ring.
 *
 * @param grid - rings and sectors
 * @param core - distance within which nothing is used, pixels
 * @param search - what was fitted
 * @param units - scale, star, pixel
 * @returns rings from the inside
 */
export function describeProfile(
  grid: PolarGrid,
  core: number,
  search: DiskSearch,
  units: HaloUnits,
): ProfileRing[] {
  // Without taking the disks out: the profile shows what is there.
  const table = ringTable(grid, core);
  const { fit } = search;
  const level = fit.parameters[0]!;
  const at = new Map(Array.from(search.table.ring, (ring, i) => [ring, i]));
  return Array.from(table.ring).flatMap((ring, i): ProfileRing[] => {
    if (!Number.isFinite(table.meanVariance[i]!)) return [];
    const k = at.get(ring);
    let disks = 0;
    if (k !== undefined) {
      for (let s = 0; s < table.sectors; s++) disks += fit.diskLight[k * table.sectors + s]! / table.sectors;
    }
    const wings = k === undefined ? 0 : fit.wingLight[k]!;
    // A median of n values scatters by 1.25 times as much as their mean, for normal noise.
    const counts = quantity(table.median[i]! - level, 1.2533 * Math.sqrt(table.meanVariance[i]!));
    const profileRing = {
      innerPixels: grid.edges[ring]!,
      outerPixels: grid.edges[ring + 1]!,
      radiusPixels: table.radius[i]!,
      counts,
      surfaceMagnitudes: surfaceQuantity(counts, units),
      sectors: table.used[i]!,
      wings,
      model: wings + disks,
    };
    return [profileRing];
  });
}
