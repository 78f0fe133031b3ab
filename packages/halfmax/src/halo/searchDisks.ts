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
  type WingModel,
  wingModel,
  wingTerms,
} from './wings.js';

/** What a search for disks goes by. */
export interface SearchOptions {
  /** Standard deviation of the disks' edges with which they are looked for, pixels; then it is fitted. */
  readonly blur: number;
  /** Probability of naming a disk where there is none. */
  readonly falseAlarm: number;
  readonly mostDisks: number;
  /** Hole to expect, as a share of the outer radius; left out: any. */
  readonly hole?: number;
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

const NOISE_DRAWS = 120;
/** Fall of the weighted sum of squares that a displacement must bring: 1 in 1000 by chance is 13.8 for two numbers. */
const DISPLACED = 16;
/** The same for a hole: few telescopes have no obstruction, so less is asked. */
const HOLE = 8;
/** Obstructions that telescopes have, common practice: where to begin the search for a hole. */
const USUAL_HOLES: readonly number[] = [0.2, 0.3, 0.4, 0.5];

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
  let terms = termsFor(table, options)[0]!;
  for (let k = 0; k <= options.mostDisks; k++) {
    const n = table.radius.length;
    const from = table.radius[0]!;
    const to = table.radius[n - 1]!;
    const first = from - table.width[0]! / 2;
    let wings = wingModel(from, to, terms, reference);
    if (disks.length > 0) {
      // Fit, free what pays, and see anew, with the disks taken out of the rings, which holes they have and how free
      // the wings must be. What one disk is taken for bears on the others: with several of them twice.
      let fit = settle(table, wings, fitDisks(table, wings, disks));
      for (let round = 0; round < Math.min(2, disks.length); round++) {
        table = ringTable(grid, core, onGrid(grid, table, fit.diskLight));
        const opened = openHoles(table, fit, options);
        fit = fitDisks(table, wingModel(from, to, opened.terms, reference), opened.disks);
        table = ringTable(grid, core, onGrid(grid, table, fit.diskLight));
        terms = scan(table, fit.disks, options, []).termsWithout;
      }
      disks = fit.disks;
    }
    const raw = rawCandidates(table.radius, table.width, withReference(table, reference), blur);
    const next = scan(table, disks, options, raw);
    terms = next.termsWithout;
    wings = wingModel(from, to, terms, reference);
    const fit = fitDisks(table, wings, disks);
    disks = fit.disks;
    const variance = withReference(table, reference);
    const extra = disks.flatMap((disk) => knownColumns(table, disk));
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
    disks = [
      ...disks,
      {
        surface: candidate.surface,
        blur,
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

function termsFor(table: RingTable, options: SearchOptions): readonly number[] {
  if (options.reference !== undefined) return [0];
  const n = table.radius.length;
  return wingTerms(table.radius[0]!, table.radius[n - 1]!, n);
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
  const extra = disks.flatMap((disk) => knownColumns(table, disk));
  return scanDisks(
    table.radius,
    table.mean,
    withReference(table, reference),
    termsFor(table, options),
    (terms) =>
      ringColumns(table.radius, wingModel(table.radius[0]!, table.radius[n - 1]!, terms, reference), extra),
    raw,
  );
}

/**
 * Opens a hole in each disk where that pays, and looks for a better one in each that has a hole: the rings say where to
 * try, and some usual shares are tried too; the cells decide, for a displaced hole is washed out in the rings.
 */
function openHoles(
  table: RingTable,
  settled: DiskFit,
  options: SearchOptions,
): { disks: readonly DiskStart[]; terms: number } {
  const { reference } = options;
  const n = table.radius.length;
  const first = table.radius[0]! - table.width[0]! / 2;
  let disks = settled.disks;
  let { termsWithout: terms } = scan(table, disks, options, []);
  const fit = (some: readonly DiskStart[], k: number): DiskFit =>
    fitDisks(
      table,
      wingModel(table.radius[0]!, table.radius[n - 1]!, k, reference),
      some,
      settled.weights,
    );
  settled.disks.forEach((disk, d) => {
    const holes = rawHoles(table.radius, table.width, withReference(table, reference), disk.blur, disk);
    // The hole at hand as a disk of its own: the best place for another one is found with it set free.
    const whole = { ...disk, inner: 0 };
    const asKnown = disks.flatMap((one, k) => (k === d ? [whole, { ...whole, outer: disk.inner }] : [one]));
    const { candidate, terms: withHole } = scan(table, asKnown, options, holes);
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

/** Whether each disk of a fit is above the level, misfit and all. */
function standsUp(step: DiskSearch): boolean {
  const uncertainties = diskUncertainties(step.fit, step.misfit);
  return step.fit.disks.every((disk, d) => disk.surface / uncertainties[step.fit.begins[d]!]! >= step.level);
}

/** Frees the place of each disk where that pays, and closes holes that reached the innermost ring. */
function settle(table: RingTable, wings: WingModel, fit: DiskFit): DiskFit {
  const first = table.radius[0]! - table.width[0]! / 2;
  const again = (disks: readonly DiskStart[]): DiskFit => fitDisks(table, wings, disks, fit.weights);
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

function replaced(disks: readonly DiskStart[], d: number, change: Partial<DiskStart>): DiskStart[] {
  return disks.map((disk, k) => (k === d ? { ...disk, ...change } : disk));
}

/** A disk and its derivatives by its radii, as the rings show them. */
function knownColumns(table: RingTable, disk: DiskStart): Float64Array[] {
  return diskColumns(disk, table.radius, table.width, disk.blur).filter((column) =>
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
