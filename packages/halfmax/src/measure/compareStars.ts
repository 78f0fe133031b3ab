import { compareHalos, type HaloComparison, type HaloResult } from '../halo/index.js';
import { type Absent, isAbsent } from '../metrics/index.js';
import type { StarEntry } from '../session/benchSession.js';

/** An image of a star with what was measured in it. */
export interface ComparedStar {
  readonly entry: StarEntry;
  readonly result: HaloResult;
}

/** Disks whose outer radii differ by less are one. */
const SAME_DISK = 0.05;

/**
 * Compares the images of one star in each disk that any of them shows: on the same scale, in the same annulus.
 *
 * @param compared - the images that could be measured
 * @returns a comparison for each disk, the strongest first, each with the image that shows it most at its head; labels
 *   are the places in the session's `stars`; or why there is none
 */
export function compareStars(compared: readonly ComparedStar[]): readonly HaloComparison[] | Absent {
  if (compared.length < 2) return { absent: 'fewer than two of the images could be measured' };
  const ratios = new Set(compared.map(({ entry }) => entry.fNumber));
  if (ratios.size > 1)
    return { absent: 'the f-numbers differ: the same faces make disks of another size in each image' };
  const lights = compared.map(({ result }) => result.workings.starCounts);
  const [unknown] = lights.filter(isAbsent);
  if (unknown !== undefined && lights.every(isAbsent)) return unknown;
  const disks = compared.flatMap(({ entry, result }) => {
    const { starCounts, search } = result.workings;
    const light = isAbsent(starCounts) ? Number.POSITIVE_INFINITY : starCounts.value;
    const { pixelSizeUm } = entry;
    return search.fit.disks.map(({ inner, outer, surface }) => ({
      entry,
      innerUm: inner * pixelSizeUm,
      outerUm: outer * pixelSizeUm,
      share: (surface * (outer * outer - inner * inner)) / light,
    }));
  });
  if (disks.length === 0) return { absent: 'no image shows a halo' };
  const distinct: typeof disks = [];
  for (const disk of disks.sort((a, b) => b.share - a.share)) {
    if (distinct.every(({ outerUm }) => Math.abs(disk.outerUm / outerUm - 1) >= SAME_DISK))
      distinct.push(disk);
  }
  return distinct.flatMap(({ entry: owner, innerUm, outerUm }) => {
    const first = compared.filter(({ entry }) => entry === owner);
    const images = [...first, ...compared.filter(({ entry }) => entry !== owner)].map(
      ({ entry, result }) => ({
        label: String(entry.index),
        result,
        micrometresPerPixel: entry.pixelSizeUm,
      }),
    );
    const found = compareHalos(images, [innerUm, outerUm]);
    return 'absent' in found ? [] : [found];
  });
}
