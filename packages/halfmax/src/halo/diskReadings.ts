import { rawHoles } from './diskCandidates.js';
import type { StaticCells } from './diskCells.js';
import type { DiskStart } from './diskShape.js';
import { type DiskFit, fitDisks } from './fitDisks.js';
import type { RingTable } from './ringTable.js';
import { type SearchOptions, scanRings, termsFor, withReference } from './scanRings.js';
import { staticCells } from './staticCells.js';
import { wingModel } from './wings.js';

/** Disks, and how many terms the wings need with them. */
export interface DiskChoice {
  readonly disks: readonly DiskStart[];
  readonly terms: number;
  /** The fit of just these, where it is known. */
  readonly fit?: DiskFit;
}

/** Fall of the weighted sum of squares that a displacement must bring: 1 in 1000 by chance is 13.8 for two numbers. */
const DISPLACED = 16;
/** The same for a hole: few telescopes have no obstruction, so less is asked. */
const HOLE = 8;
/** Obstructions that telescopes have, common practice: where to begin the search for a hole. */
const USUAL_HOLES: readonly number[] = [0.2, 0.3, 0.4, 0.5];
/** The same for several disks at once. */
const COMMON_HOLES: readonly number[] = [0.2, 0.28, 0.36, 0.45];
/** Holes whose shares differ by less than this of the larger can be one obstruction's: faint edges are not surer. */
const SAME_SHARE = 0.15;
/** An inner radius this near to another disk's outer one, pixels and share of it, can be one disk cut in two. */
const TOUCHING_PIXELS = 4;
const TOUCHING_SHARE = 0.05;

/** Frees the place of each disk where that pays, and closes holes that reached the innermost ring. */
export function settleDisks(table: RingTable, cells: StaticCells, fit: DiskFit): DiskFit {
  const first = table.radius[0]! - table.width[0]! / 2;
  const sums = cells.vectors.sum(fit.weights);
  const again = (disks: readonly DiskStart[]): DiskFit => fitDisks(table, cells, disks, sums);
  let best = fit;
  fit.disks.forEach((_, d) => {
    const disk = best.disks[d]!;
    if (disk.holeFree && disk.inner < first + 1) {
      best = again(replaced(best.disks, d, { inner: 0, holeFree: false }));
    }
    if (best.disks[d]!.placeFree) return;
    const moved = again(replaced(best.disks, d, { placeFree: true }));
    if (best.sum - moved.sum > DISPLACED) best = moved;
  });
  return best;
}

/**
 * Opens a hole in each disk where that pays, and looks for a better one in each that has a hole: the rings say where to
 * try, and some usual shares are tried too; the cells decide, for a displaced hole is washed out in the rings.
 */
export function openHoles(
  table: RingTable,
  cellsWith: (terms: number) => StaticCells,
  settled: DiskFit,
  options: SearchOptions,
): DiskChoice {
  const { reference } = options;
  const n = table.radius.length;
  const first = table.radius[0]! - table.width[0]! / 2;
  const sumsWith = remembered((k) => cellsWith(k).vectors.sum(settled.weights));
  let disks = settled.disks;
  let { termsWithout: terms } = scanRings(table, disks, options, []);
  const fit = (some: readonly DiskStart[], k: number): DiskFit =>
    fitDisks(table, cellsWith(k), some, sumsWith(k));
  settled.disks.forEach((disk, d) => {
    const holes = rawHoles(table.radius, table.width, withReference(table, reference), disk.blur, disk);
    // The hole at hand as a disk of its own: the best place for another one is found with it set free.
    const whole = { ...disk, inner: 0 };
    const asKnown = disks.flatMap((one, k) => (k === d ? [whole, { ...whole, outer: disk.inner }] : [one]));
    const { candidate, terms: withHole } = scanRings(table, asKnown, options, holes);
    let best = fit(disks, terms);
    let bestTerms = terms;
    // Wings free enough to imitate a wrong hole would keep it: begin with stiff ones.
    const stiff = termsFor(table, options)[0]!;
    const starts = USUAL_HOLES.map((share) => ({ inner: share * disk.outer, k: stiff }));
    if (candidate !== null) starts.push({ inner: candidate.inner, k: withHole });
    if (options.hole !== undefined) starts.push({ inner: options.hole * disk.outer, k: stiff });
    for (const { inner, k } of starts) {
      if (inner < first + 2 || inner > 0.95 * disk.outer) continue;
      const open = fit(replaced(disks, d, { inner, holeFree: true }), k);
      if (open.disks[d]!.surface <= 0 || open.disks[d]!.inner < first + 1) continue;
      const needed = best.disks[d]!.holeFree ? 1 : HOLE;
      if (best.sum - open.sum + (bestTerms - k) * Math.log(n) < needed) continue;
      best = open;
      bestTerms = k;
    }
    disks = best.disks;
    terms = bestTerms;
  });
  return { disks, terms };
}

/**
 * Tries other readings of several disks together: one hole for all, as the shadow of one obstruction; holes exchanged;
 * two that touch taken as one. Each parameter counts by Schwarz's criterion.
 *
 * @param table - cells and rings
 * @param cellsWith - their background and wings with so many terms
 * @param settled - fit to begin with
 * @param terms - of the wings with it
 * @param options - of the search
 * @returns the best reading
 *
 * Source: Schwarz, Ann. Stat. 6, 461 (1978).
 */
export function regroupDisks(
  table: RingTable,
  cellsWith: (terms: number) => StaticCells,
  settled: DiskFit,
  terms: number,
  options: SearchOptions,
): DiskChoice {
  const n = table.radius.length;
  const first = table.radius[0]! - table.width[0]! / 2;
  const stiff = termsFor(table, options)[0]!;
  const { disks } = settled;
  const withHoles = (holes: readonly number[]): DiskStart[] =>
    disks.map((disk, k) => {
      const inner = Math.min(0.9 * disk.outer, holes[k]!);
      return inner < first + 2 ? { ...disk, inner: 0, holeFree: false } : { ...disk, inner, holeFree: true };
    });
  const shares = [...COMMON_HOLES, ...(options.hole === undefined ? [] : [options.hole])];
  const readings: DiskStart[][] = shares.map((share) => withHoles(disks.map((disk) => share * disk.outer)));
  disks.forEach((one, d) => {
    disks.forEach((other, e) => {
      if (e < d) {
        readings.push(
          withHoles(disks.map(({ inner }, k) => (k === d ? other.inner : k === e ? one.inner : inner))),
        );
      }
      if (
        e !== d &&
        Math.abs(one.inner - other.outer) < Math.max(TOUCHING_PIXELS, TOUCHING_SHARE * other.outer)
      ) {
        const joined = { ...one, inner: other.inner, holeFree: other.holeFree };
        readings.push(disks.flatMap((disk, k) => (k === e ? [] : [k === d ? joined : disk])));
      }
    });
  });
  const score = (fit: DiskFit): number =>
    fit.loss + (fit.parameters.length - sharedHoles(fit.disks)) * Math.log(n);
  // Each with weights of its own: those of a wrong reading hide the cells that speak against it.
  const fitted = (some: readonly DiskStart[], k: number): DiskFit => fitDisks(table, cellsWith(k), some);
  const asTheyAre = fitted(disks, terms);
  let best: DiskChoice & { readonly score: number } = {
    disks,
    terms,
    fit: asTheyAre,
    score: score(asTheyAre) - 1,
  };
  for (const reading of readings) {
    let fit = fitted(reading, stiff);
    // A disk that only made up for wrong holes falls below 0 with the right ones.
    const lit = fit.disks.filter((disk) => disk.surface > 0);
    if (lit.length > 0 && lit.length < fit.disks.length) fit = fitted(lit, stiff);
    if (score(fit) < best.score && fit.disks.every((disk) => disk.surface > 0)) {
      best = { disks: fit.disks, terms: stiff, score: score(fit) };
    }
  }
  return best;
}

/** Background and wings of the cells with so many terms. */
export function cellsByTerms(table: RingTable, { reference }: SearchOptions): (terms: number) => StaticCells {
  const from = table.radius[0]!;
  const to = table.radius[table.radius.length - 1]!;
  return remembered((terms) => staticCells(table, wingModel(from, to, terms, reference)));
}

/** A function of a number that is reckoned once for each. */
function remembered<T>(make: (k: number) => T): (k: number) => T {
  const known = new Map<number, T>();
  return (k) => {
    const value = known.get(k) ?? make(k);
    known.set(k, value);
    return value;
  };
}

/** Holes that need no number of their own: all of them one obstruction's shadow. */
function sharedHoles(disks: readonly DiskStart[]): number {
  const shares = disks.filter(({ holeFree }) => holeFree).map(({ inner, outer }) => inner / outer);
  if (shares.length < 2) return 0;
  return Math.max(...shares) - Math.min(...shares) < SAME_SHARE * Math.max(...shares) ? shares.length - 1 : 0;
}

function replaced(disks: readonly DiskStart[], d: number, change: Partial<DiskStart>): DiskStart[] {
  return disks.map((disk, k) => (k === d ? { ...disk, ...change } : disk));
}
