import { type DiskCandidate, ownDirection } from './diskCandidates.js';
import { dot } from './leastSquares.js';
import type { DiskSearch } from './searchDisks.js';

/** Upper limit of the surface brightness of one disk. */
export interface DiskLimit {
  readonly inner: number;
  readonly outer: number;
  /** Counts a pixel, at 95 %. */
  readonly surface: number;
  /** Counts. */
  readonly flux: number;
}

const ONE_SIDED_95 = 1.6448536269514722;

/**
 * Upper limits at 95 % on disks that were not found.
 *
 * @param search - what was looked for and what is left
 * @param hole - hole of the disks, as a share of their outer radius, 0 to 0.9
 * @param radii - outer radii wanted, pixels; left out: seven over the range searched, and the worst
 * @returns for each radius the nearest disk that was looked for; none where none could be seen
 *
 * Source: one-sided normal limit above the estimate, the estimate not taken below 0: conservative where it is.
 */
export function diskLimits(search: DiskSearch, hole: number, radii?: readonly number[]): DiskLimit[] {
  const { candidates } = search;
  if (candidates.length === 0) return [];
  const byRadius = new Map<number, DiskCandidate>();
  for (const one of candidates) {
    const known = byRadius.get(one.outer);
    const distance = (candidate: DiskCandidate): number => Math.abs(candidate.inner / candidate.outer - hole);
    if (known === undefined || distance(one) < distance(known)) byRadius.set(one.outer, one);
  }
  const list = [...byRadius.values()].sort((a, b) => a.outer - b.outer);
  const first = list[0]!.outer;
  const last = list[list.length - 1]!.outer;
  const wanted = radii ?? Array.from({ length: 7 }, (_, k) => first * (last / first) ** (k / 6));
  const chosen = wanted
    .filter((radius) => radius >= first * 0.98 && radius <= last * 1.02)
    .map((radius) =>
      list.reduce((best, one) => (Math.abs(one.outer - radius) < Math.abs(best.outer - radius) ? one : best)),
    );
  return [...new Set(chosen)].map((candidate) => limitOf(search, candidate));
}

function limitOf(search: DiskSearch, candidate: DiskCandidate): DiskLimit {
  const { table, fit, misfit, base } = search;
  const direction = ownDirection(candidate, base);
  const estimate = dot(direction, base.residuals);
  const perSector: number[] = [];
  for (let s = 0; s < table.sectors; s++) {
    let sum = 0;
    for (let i = 0; i < table.radius.length; i++) {
      const k = i * table.sectors + s;
      if (Number.isNaN(table.counts[k]!)) continue;
      const deviation = table.counts[k]! - fit.model[k]!;
      // A cell far off was left out of the ring's mean as well.
      if (Math.abs(deviation) > 6 * Math.sqrt(table.variance[k]!)) continue;
      sum += (direction[i]! * deviation) / Math.sqrt(table.meanVariance[i]!);
    }
    perSector.push(sum);
  }
  const mean = perSector.reduce((sum, value) => sum + value, 0) / perSector.length;
  const squares = perSector.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const bySectors = squares / (perSector.length - 1) / perSector.length;
  let byMisfit = 0;
  for (let i = 0; i < table.radius.length; i++) {
    byMisfit += (direction[i]! ** 2 * misfit.extraVariance[i]!) / table.meanVariance[i]!;
  }
  const deviation = Math.sqrt(Math.max(1, bySectors) + byMisfit);
  const surface = (Math.max(0, estimate) + ONE_SIDED_95 * deviation) / candidate.own;
  const area = Math.PI * (candidate.outer ** 2 - candidate.inner ** 2);
  return { inner: candidate.inner, outer: candidate.outer, surface, flux: surface * area };
}
