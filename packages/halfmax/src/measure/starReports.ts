import type { Warning } from '../frames/index.js';
import { type Absent, absent } from '../metrics/index.js';
import type { BenchSession, StarEntry } from '../session/benchSession.js';
import type { Sky } from '../sky/index.js';
import type { Conditions } from './conditions.js';
import type { AbsentHalo, HaloComparisonReport } from './haloComparison.js';
import { type HaloReport, haloReport } from './haloReport.js';
import { number, record } from './manifestValues.js';
import type { MeasuredFilter } from './measureFilter.js';
import type { MeasuredStars } from './measureStars.js';
import type { FilterPlaceBefore } from './movedHalo.js';
import { starLimit } from './starLimit.js';

/** Reports of the session's stars. */
export interface StarReports {
  readonly halos: readonly (HaloReport | AbsentHalo)[];
  readonly haloComparisons: readonly HaloComparisonReport[];
  readonly warnings: readonly Warning[];
}

/**
 * The measured stars of a session as they are written down: each with the faces that fit, what moving the filter would
 * change, and its verdict.
 *
 * @param session - the session
 * @param measured - its stars, measured
 * @param surroundings - conditions and sky of its site, its filters measured
 * @returns reports in the order of the session
 */
export function starReports(
  session: BenchSession,
  measured: readonly MeasuredStars[],
  surroundings: {
    readonly conditions: Conditions;
    readonly sky: Sky | null;
    readonly filters: readonly MeasuredFilter[];
  },
): StarReports {
  const { conditions, sky, filters } = surroundings;
  const entries = new Map((session.stars ?? []).map((entry) => [entry.index, entry]));
  const warnings: Warning[] = [];
  const stars = measured.flatMap((group) => group.stars).sort((a, b) => a.index - b.index);
  const halos = stars.map((star): HaloReport | AbsentHalo => {
    const entry = entries.get(star.index)!;
    const { filter, picture, fNumber, fNumberUncertainty, obstruction, layers } = entry;
    warnings.push(...star.warnings);
    const { measurement } = star;
    if ('absent' in measurement) return { filter, image: picture.file, absent: measurement.absent };
    const curve = filters.find(({ report }) => report.id === filter)?.curve ?? null;
    const { tolerance, assumed } = starLimit(entry, { conditions, bench: session.bench, sky, curve });
    if (entry.limit !== null && 'absent' in tolerance)
      warnings.push({
        where: picture.file,
        what: `stars[${star.index}].limit: not judged: ${tolerance.absent}`,
      });
    return haloReport(filter, measurement, {
      optics: {
        fNumber,
        fNumberUncertainty,
        ...(obstruction === null ? {} : { obstruction }),
      },
      ...(layers === null ? {} : { layers }),
      tolerance,
      assumed,
      before: beforeOf(entry, record(record(session.manifest['beam'])['reducer'])),
    });
  });
  return { halos, haloComparisons: comparisons(measured, entries), warnings };
}

function comparisons(
  measured: readonly MeasuredStars[],
  entries: ReadonlyMap<number, StarEntry>,
): HaloComparisonReport[] {
  return measured.flatMap(({ stars, comparisons: found }): HaloComparisonReport[] => {
    if (found === null) return [];
    const { star } = entries.get(stars[0]!.index)!;
    if ('absent' in found) return [{ star, ...found }];
    const disks = found.map(({ innerUm, outerUm, filters }) => ({
      innerUm,
      outerUm,
      filters: filters.map(({ label, ...numbers }) => {
        const { filter, picture } = entries.get(Number(label))!;
        return { filter, image: picture.file, ...numbers };
      }),
    }));
    return [{ star, disks }];
  });
}

/** Light before the corrector, from the star's entry or from the session's reducer. */
function beforeOf(
  { fNumber, fNumberBefore, movedSpacingMm }: StarEntry,
  reducer: Readonly<Record<string, unknown>>,
): FilterPlaceBefore {
  const at = (value: number | Absent): FilterPlaceBefore => ({ fNumber: value, spacingMm: movedSpacingMm });
  if (fNumberBefore !== null) return at(fNumberBefore);
  const factor = number(reducer['factor'], 0);
  if (!(factor > 0)) return at(absent('the f-number before the corrector is not given'));
  if (reducer['filterPlace'] === 'before') return at(absent('the filter is before the corrector already'));
  return at(fNumber / factor);
}
