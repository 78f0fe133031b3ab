import type { RandomStream } from '../numeric/index.js';
import { diskColumns } from './diskShape.js';
import { diskUncertainties } from './diskCovariance.js';
import { type DiskFit, type DiskStart, fitDisks } from './fitDisks.js';
import { fitMisfit, type Misfit } from './fitMisfit.js';
import { leastSquares } from './leastSquares.js';
import type { PolarGrid } from './polarGrid.js';
import { type RingTable, ringTable } from './ringTable.js';
import {
  type DiskCandidate,
  type DiskScan,
  falseAlarmLevel,
  projectCandidates,
  type RawCandidate,
  rawCandidates,
  rawHoles,
  scanDisks,
} from './scanDisks.js';
import {
  type ReferenceProfile,
  ringColumns,
  WING_TERMS,
  type WingModel,
  wingModel,
} from './wings.js';

/** What a search for disks goes by. */
export interface SearchOptions {
  /** Standard deviation of the disks' edges, pixels. */
  readonly blur: number;
  /** Probability of naming a disk where there is none. */
  readonly falseAlarm: number;
  readonly mostDisks: number;
  /** Wings from another frame; left out: modelled. */
  readonly reference?: ReferenceProfile;
}

/** Disks found, and all that was fitted. */
export interface DiskSearch {
  readonly table: RingTable;
  readonly wings: WingModel;
  /** Powers in the model of the wings; 0 where a reference was used. */
  readonly terms: number;
  readonly fit: DiskFit;
  readonly misfit: Misfit;
  /** Significance that a disk must reach. */
  readonly level: number;
  /** Disks that the rings do not show, and the weighted residuals to hold against them. */
  readonly candidates: readonly DiskCandidate[];
  readonly residuals: Float64Array;
}

const NOISE_DRAWS = 300;
/** Fall of the weighted sum of squares that a displacement must bring: 1 in 1000 by chance is 13.8 for two numbers. */
const DISPLACED = 16;
/** The same for a hole, with the radii that are tried. */
const HOLE = 16;

/**
 * Looks for disks one after another, until noise would do as well, then keeps as many as stand up to the misfit of
 * the model that they leave.
 *
 * @param grid - rings and sectors about the star
 * @param core - distance within which nothing is used, pixels
 * @param options - see there
 * @param stream - random numbers
 * @returns the fit with its disks, none where there are none; null where too few rings are usable
 */
export function searchDisks(
  grid: PolarGrid,
  core: number,
  options: SearchOptions,
  stream: RandomStream,
): DiskSearch | null {
  let table = ringTable(grid, core);
  if (table.radius.length < 12) return null;
  const { reference, blur } = options;
  let disks: readonly DiskStart[] = [];
  let level = Number.NaN;
  const steps: DiskSearch[] = [];
  let terms = reference === undefined ? WING_TERMS[0]! : 0;
  for (let k = 0; k <= options.mostDisks; k++) {
    const n = table.radius.length;
    const from = table.radius[0]!;
    const to = table.radius[n - 1]!;
    let wings = wingModel(from, to, terms, reference);
    if (disks.length > 0) {
      // Fit, take the disks out of the rings, and see anew how free the wings must be and whether a disk has a hole.
      for (let round = 0; round < 2; round++) {
        disks = settle(table, wings, fitDisks(table, wings, disks, blur), blur);
        table = ringTable(grid, core, onGrid(grid, table, fitDisks(table, wings, disks, blur).diskLight));
        const opened = openHoles(table, disks, options);
        disks = opened.disks;
        terms = opened.terms;
        wings = wingModel(from, to, terms, reference);
      }
    }
    const raw = rawCandidates(table.radius, table.width, withReference(table, reference), blur);
    const next = scan(table, disks, options, raw);
    terms = next.termsWithout;
    wings = wingModel(from, to, terms, reference);
    const fit = fitDisks(table, wings, disks, blur);
    disks = fit.disks;
    const variance = withReference(table, reference);
    const extra = disks.flatMap((disk) => knownColumns(table, disk, blur));
    const base = leastSquares(ringColumns(table.radius, wings, extra), table.mean, variance);
    const candidates = projectCandidates(raw, base);
    if (Number.isNaN(level) && candidates.length > 0) {
      level = falseAlarmLevel(candidates, options.falseAlarm, NOISE_DRAWS, stream);
    }
    steps.push({
      table,
      wings,
      terms,
      fit,
      misfit: fitMisfit(fit),
      level,
      candidates,
      residuals: base.residuals,
    });
    const { candidate } = next;
    if (candidate === null || !(next.significance >= level)) break;
    terms = next.terms;
    const first = from - table.width[0]! / 2;
    disks = [
      ...disks,
      {
        surface: candidate.surface,
        outer: candidate.outer,
        inner: candidate.inner,
        dx: 0,
        dy: 0,
        radiusFree: true,
        holeFree: candidate.inner > first + 2,
        placeFree: false,
      },
    ];
  }
  for (let k = steps.length - 1; k > 0; k--) if (standsUp(steps[k]!)) return steps[k]!;
  return steps[0]!;
}

/** The best of the candidates; without any, only the wings that suit the rings as they are. */
function scan(
  table: RingTable,
  disks: readonly DiskStart[],
  options: SearchOptions,
  raw: readonly RawCandidate[],
): DiskScan {
  const { reference } = options;
  const n = table.radius.length;
  const extra = disks.flatMap((disk) => knownColumns(table, disk, options.blur));
  return scanDisks(
    table.radius,
    table.mean,
    withReference(table, reference),
    reference === undefined ? WING_TERMS : [0],
    (terms) =>
      ringColumns(table.radius, wingModel(table.radius[0]!, table.radius[n - 1]!, terms, reference), extra),
    raw,
  );
}

/**
 * Opens a hole in each disk taken as whole where that pays: the rings say where to try, the cells decide, for a
 * displaced hole is washed out in the rings.
 */
function openHoles(
  table: RingTable,
  disks: readonly DiskStart[],
  options: SearchOptions,
): { disks: readonly DiskStart[]; terms: number } {
  const { blur, reference } = options;
  const n = table.radius.length;
  let { termsWithout: terms } = scan(table, disks, options, []);
  let opened = disks;
  disks.forEach((disk, d) => {
    if (disk.holeFree) return;
    const holes = rawHoles(table.radius, table.width, withReference(table, reference), blur, disk);
    const { candidate, terms: withHole } = scan(table, opened, options, holes);
    if (candidate === null) return;
    const fit = (some: readonly DiskStart[], k: number): DiskFit =>
      fitDisks(table, wingModel(table.radius[0]!, table.radius[n - 1]!, k, reference), some, blur);
    const closed = fit(opened, terms);
    const open = fit(replaced(opened, d, { inner: candidate.inner, holeFree: true }), withHole);
    const fall = closed.sum - open.sum + (terms - withHole) * Math.log(n);
    if (fall < HOLE || open.cells < closed.cells || open.disks[d]!.surface <= 0) return;
    opened = open.disks;
    terms = withHole;
  });
  return { disks: opened, terms };
}

/** Whether each disk of a fit is above the level, misfit and all. */
function standsUp(step: DiskSearch): boolean {
  const uncertainties = diskUncertainties(step.fit, step.misfit);
  return step.fit.disks.every((disk, d) => disk.surface / uncertainties[step.fit.begins[d]!]! >= step.level);
}

/** Frees the place of each disk where that pays, and closes holes that reached the innermost ring. */
function settle(table: RingTable, wings: WingModel, fit: DiskFit, blur: number): readonly DiskStart[] {
  const first = table.radius[0]! - table.width[0]! / 2;
  let best = fit;
  fit.disks.forEach((_, d) => {
    const disk = best.disks[d]!;
    if (disk.holeFree && disk.inner < first + 1) {
      best = fitDisks(table, wings, replaced(best.disks, d, { inner: 0, holeFree: false }), blur);
    }
    if (best.disks[d]!.placeFree) return;
    const moved = fitDisks(table, wings, replaced(best.disks, d, { placeFree: true }), blur);
    if (best.sum - moved.sum > DISPLACED && moved.cells >= best.cells) best = moved;
    else if (moved.cells > best.cells + DISPLACED) best = moved;
  });
  return best.disks;
}

function replaced(disks: readonly DiskStart[], d: number, change: Partial<DiskStart>): DiskStart[] {
  return disks.map((disk, k) => (k === d ? { ...disk, ...change } : disk));
}

/** A disk and its derivatives by its radii, as the rings show them. */
function knownColumns(table: RingTable, disk: DiskStart, blur: number): Float64Array[] {
  return diskColumns(disk, table.radius, table.width, blur).filter((column) =>
    column.some((value) => value !== 0),
  );
}

/** Variance of the rings with that of the reference scaled to them. */
function withReference(table: RingTable, reference: ReferenceProfile | undefined): Float64Array {
  if (reference === undefined) return table.meanVariance;
  const inner = reference.radius.findIndex((r) => r >= table.radius[0]!);
  const k = Math.max(0, inner);
  const floor = table.mean[table.mean.length - 1]!;
  const scale = (table.mean[0]! - floor) / (reference.counts[k]! || 1);
  return table.meanVariance.map((variance, i) => {
    let at = 0;
    while (at < reference.radius.length - 1 && reference.radius[at + 1]! <= table.radius[i]!) at++;
    return variance + scale * scale * reference.variance[at]!;
  });
}

function onGrid(grid: PolarGrid, table: RingTable, light: Float64Array): Float64Array {
  const out = new Float64Array(grid.rings * grid.sectors);
  table.ring.forEach((ring, i) => {
    for (let s = 0; s < grid.sectors; s++) out[ring * grid.sectors + s] = light[i * grid.sectors + s]!;
  });
  return out;
}
