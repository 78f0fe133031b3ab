import type { Absent, Quantity } from '../metrics/index.js';
import type { BenchConditions } from '../session/benchSession.js';
import { gainOver, type LineOnSky, rankFilters, type SiteSky, type SkySpectrum } from '../sky/index.js';
import type { Conditions } from './conditions.js';
import type { CurveInUse } from './curveInUse.js';
import type { BandReport } from './measurement.js';
import { skyOf } from './skyOf.js';
import { skyReport } from './skyReport.js';
import type { SkyLineReport, SkyReport } from './usageReports.js';

/** A filter to be compared, of whatever session. */
export interface Candidate {
  /** Where it comes from: the session's or the measurement's path. */
  readonly from: string;
  readonly id: string;
  readonly label: string;
  /** The line spread taken out where that could be done. */
  readonly curve: CurveInUse;
  readonly bands: readonly BandReport[];
  readonly bench: BenchConditions;
  readonly price: { readonly amount: number; readonly currency: string } | null;
}

/** A filter's place in the ranking of a line. */
export interface ComparedFilter extends SkyLineReport {
  readonly from: string;
  readonly id: string;
  readonly label: string;
  readonly price: Candidate['price'];
  /** From 1, shared by those that the intervals do not tell apart; null where there are no hours. */
  readonly rank: number | null;
  /** Labels of the filters whose intervals overlap with this one's. */
  readonly tiedWith: readonly string[];
  readonly effectiveWidthNm: Quantity;
  /** Signal to noise over that of the line's first filter in equal time. */
  readonly gainOverFirst: Quantity;
}

/** Filters ranked line by line, all under the same conditions. */
export interface Comparison {
  readonly format: 'halfmax-comparison/1';
  readonly site: Pick<SiteSky, 'vMagnitude' | 'parts'>;
  readonly fNumber: number;
  readonly goal: number;
  readonly nightHours: number;
  readonly nights: number;
  readonly assumed: readonly string[];
  readonly lines: readonly {
    readonly line: string;
    readonly wavelengthNm: number;
    readonly filters: readonly ComparedFilter[];
  }[];
  /** Filters that could not be judged, and why. */
  readonly leftOut: readonly { readonly from: string; readonly label: string; readonly why: string }[];
}

/**
 * Ranks filters by the hours that each needs for a line, with ties where the intervals overlap: those under the same
 * sky and target, since what is not known of these is common to all.
 *
 * @param candidates - filters of one or several sessions
 * @param conditions - the telescope, site and camera that all are judged by
 * @param trials - seed and count of trials
 * @param spectrum - measured sky of the site, taken instead of a modelled one
 * @returns lines in the order of wavelength, each with its filters in the order of their places
 * @throws {RangeError} a spectrum that does not cover the V band
 */
export function compareFilters(
  candidates: readonly Candidate[],
  conditions: Conditions,
  trials: { readonly seed: number; readonly draws?: number },
  spectrum?: SkySpectrum,
): Comparison {
  const site = skyOf(conditions, spectrum, trials);
  const leftOut: { from: string; label: string; why: string }[] = [];
  const rows: { candidate: Candidate; report: SkyReport; line: SkyLineReport; quality: Float64Array }[] = [];
  candidates.forEach((candidate, position) => {
    const { from, label, curve, bands, bench, price } = candidate;
    // A stream of its own for each filter: two filters do not share their noise.
    const context = {
      ...trials,
      seed: (trials.seed + 0x9e3779b9 * (position + 1)) >>> 0,
      skySeed: trials.seed,
      bench,
      price,
    };
    const found: { report: SkyReport | Absent; trials: readonly LineOnSky[] } =
      curve.wavelengthNm.length < 5
        ? { report: { absent: 'it has no curve' }, trials: [] }
        : skyReport(curve, bands, conditions, site, context);
    const { report } = found;
    if ('absent' in report) leftOut.push({ from, label, why: report.absent });
    else
      report.lines.forEach((line, k) => {
        rows.push({ candidate, report, line, quality: found.trials[k]!.quality });
      });
  });
  const places = new Map(rows.map(({ line }) => [line.name, line.wavelengthNm]));
  const lines = [...places]
    .sort((a, b) => a[1] - b[1])
    .map(([name, wavelengthNm]) => {
      const own = rows.filter(({ line }) => line.name === name);
      const ranked = rankFilters(own, ({ line }) => line.hoursSameSky, 'less');
      const first = ranked[0]!.item.quality;
      const filters = ranked.map(({ item: { candidate, report, line, quality }, rank, tiedWith }) => ({
        ...line,
        from: candidate.from,
        id: candidate.id,
        label: candidate.label,
        price: candidate.price,
        rank,
        tiedWith: tiedWith.map((one) => one.candidate.label),
        effectiveWidthNm: report.effectiveWidthNm,
        gainOverFirst: gainOver(quality, first),
      }));
      return { line: name, wavelengthNm, filters };
    });
  return {
    format: 'halfmax-comparison/1',
    site: { vMagnitude: site.vMagnitude, parts: site.parts },
    fNumber: conditions.beam.fNumbers[0]!,
    goal: conditions.site.goal,
    nightHours: conditions.site.nightHours,
    nights: conditions.site.nights,
    assumed: [...conditions.assumed, ...site.assumed],
    lines,
    leftOut,
  };
}
