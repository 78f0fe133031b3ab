import type { RandomStream } from '../numeric/index.js';
import {
  candidateDisks,
  type DiskCandidate,
  type RawCandidate,
  rawCandidates,
  visibleDisks,
} from './diskCandidates.js';
import { diskUncertainties } from './diskCovariance.js';
import { cellsByTerms, openHoles, regroupDisks, settleDisks } from './diskReadings.js';
import type { DiskStart } from './diskShape.js';
import { falseAlarmLevel } from './falseAlarmLevel.js';
import { fitDisks } from './fitDisks.js';
import { fitMisfit, type Misfit } from './fitMisfit.js';
import { type AnsweringFit, fitResponse } from './fitResponse.js';
import { type LeastSquares, leastSquares } from './leastSquares.js';
import type { PolarGrid } from './polarGrid.js';
import { type RingTable, ringTable } from './ringTable.js';
import { knownColumns, type SearchOptions, scanRings, termsFor, withReference } from './scanRings.js';
import { staticCells } from './staticCells.js';
import { ringColumns, type WingModel, wingModel } from './wings.js';

/** Disks found, and all that was fitted. */
export interface DiskSearch {
  readonly table: RingTable;
  readonly wings: WingModel;
  /** Powers in the model of the wings; 0 where a reference was used. */
  readonly terms: number;
  readonly fit: AnsweringFit;
  readonly misfit: Misfit;
  /** Significance that a disk must reach. */
  readonly level: number;
  /** Disks that the rings do not show, and the fit of the rings to hold against them. */
  readonly candidates: readonly DiskCandidate[];
  readonly base: LeastSquares;
}

const NOISE_DRAWS = 120;
/** A disk reaches more than this beyond the edge of the star's core, pixels: a fit is not let below 2. */
const LEAST_DISK = 2.5;

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
  const steps: SearchStep[] = [];
  const shapes = candidateDisks(table.radius, table.width, blur);
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
      const cells = staticCells(table, wings);
      let fit = settleDisks(table, cells, fitDisks(table, cells, disks));
      for (let round = 0; round < Math.min(2, disks.length); round++) {
        table = ringTable(grid, core, onGrid(grid, table, fit.diskLight));
        const cellsWith = cellsByTerms(table, options);
        let choice = openHoles(table, cellsWith, fit, options);
        if (disks.length > 1) {
          const opened = cellsWith(choice.terms);
          const sums = opened.vectors.sum(fit.weights);
          const settled = fitDisks(table, opened, choice.disks, sums);
          choice = regroupDisks(table, cellsWith, settled, choice.terms, options);
        }
        fit = choice.fit ?? fitDisks(table, cellsWith(choice.terms), choice.disks);
        table = ringTable(grid, core, onGrid(grid, table, fit.diskLight));
        terms = scanRings(table, fit.disks, options, []).termsWithout;
      }
      disks = fit.disks;
    }
    const raw = rawCandidates(shapes, withReference(table, reference));
    const next = scanRings(table, disks, options, raw);
    terms = next.termsWithout;
    wings = wingModel(from, to, terms, reference);
    const cells = staticCells(table, wings);
    const fit = fitResponse(table, cells, fitDisks(table, cells, disks));
    disks = fit.disks;
    const variance = withReference(table, reference);
    const extra = disks.flatMap((disk) => knownColumns(table, disk));
    const base = leastSquares(ringColumns(table.radius, wings, extra), table.mean, variance);
    if (Number.isNaN(level)) {
      const candidates = visibleDisks(raw, base);
      if (candidates.length > 0)
        level = falseAlarmLevel(candidates, base.orthonormal, options.falseAlarm, NOISE_DRAWS, stream);
    }
    steps.push({ table, wings, terms, fit, misfit: fitMisfit(fit), level, raw, base });
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
  let last = steps.length - 1;
  while (last > 0 && !standsUp(steps[last]!)) last--;
  const { raw, ...found } = steps[last]!;
  return { ...found, candidates: visibleDisks(raw, found.base) };
}

/** A fit with so many disks, and what is needed to look for another. */
interface SearchStep extends Omit<DiskSearch, 'candidates'> {
  readonly raw: readonly RawCandidate[];
}

/**
 * Whether each disk of a fit is above the level, misfit and all. One that shrank to the innermost rings is what the wings
 * leave there, not a disk.
 */
function standsUp(step: SearchStep): boolean {
  const uncertainties = diskUncertainties(step.fit, step.misfit);
  const { radius, width } = step.table;
  const least = radius[0]! - width[0]! / 2 + LEAST_DISK;
  return step.fit.disks.every(
    (disk, d) => disk.outer > least && disk.surface / uncertainties[step.fit.begins[d]!]! >= step.level,
  );
}

function onGrid(grid: PolarGrid, table: RingTable, light: Float64Array): Float64Array {
  const out = new Float64Array(grid.rings * grid.sectors);
  table.ring.forEach((ring, i) => {
    for (let s = 0; s < grid.sectors; s++) out[ring * grid.sectors + s] = light[i * grid.sectors + s]!;
  });
  return out;
}
