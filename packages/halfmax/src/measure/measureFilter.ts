import { type Calibration, wavelengthAt } from '../calibration/index.js';
import type { CleanSpectrum, NoiseModel, ReducedFrames, Warning } from '../frames/index.js';
import { type BandRange, findBands, outOfBand } from '../metrics/index.js';
import type { BenchConditions, FilterEntry } from '../session/benchSession.js';
import type { UncertainSky } from '../sky/index.js';
import { transmittanceCurve } from '../transmittance/index.js';
import type { DecisionRule } from '../verdict/index.js';
import { bandTargets } from './bandTargets.js';
import { bandWarnings } from './bandWarnings.js';
import { beamReport } from './beamReport.js';
import type { Conditions } from './conditions.js';
import { type CurveInUse, curveInUse } from './curveInUse.js';
import { blockingLimits, curveOnScale, type ScaledCurve } from './curveOnScale.js';
import { judgeClaims } from './judgeClaims.js';
import { measureBand } from './measureBand.js';
import type { CurveTable, FilterReport } from './measurement.js';
import { noPassband } from './noPassband.js';
import { furtherQuotes, quoteBand } from './quoteBand.js';
import { skyReport } from './skyReport.js';

/** What holds for all filters of a session. */
export interface FilterOptions {
  readonly seed: number;
  readonly draws: number | null;
  /** Relative flicker of the lamp from frame to frame. */
  readonly flicker: number;
  /** Relative drift of the lamp taken where a single open scan cannot show it. */
  readonly singleOpenDrift: number;
  /** Half width of the non-linearity left. */
  readonly nonLinearity: number;
  readonly rule: DecisionRule;
  readonly bench: BenchConditions;
  /** How the filters are used. */
  readonly conditions: Conditions;
  /** Whether the session states the telescope's beam. */
  readonly statesBeam: boolean;
  /** The sky of the session's site; null where it states none. */
  readonly sky: UncertainSky | null;
}

/** Trials of a line in the beam and under the sky: their standard deviation is good to 3 %. */
export const USAGE_DRAWS = 600;

/** One filter measured. */
export interface MeasuredFilter {
  readonly report: FilterReport;
  readonly curve: CurveTable | null;
  /** The curve by which it is judged in the telescope; null where it has none. */
  readonly inUse: CurveInUse | null;
  readonly warnings: readonly Warning[];
}

/**
 * Measures one filter of a session: curve, bands, blocking, claims.
 *
 * @param filter - the session's entry
 * @param frames - clean spectra of the session
 * @param calibration - scale and line spread
 * @param options - trials and level uncertainties of the session
 * @param onStep - told how far the trials of each band are
 * @returns report and curve
 */
export function measureFilter(
  filter: FilterEntry,
  frames: Pick<ReducedFrames, 'spectra' | 'noise'>,
  calibration: Calibration,
  options: FilterOptions,
  onStep?: (step: string) => void,
): MeasuredFilter {
  const filtered = frames.spectra.filter(
    (spectrum) => spectrum.role === 'filtered' && spectrum.filter === filter.id,
  );
  const open = frames.spectra.filter((spectrum) => spectrum.role === 'open');
  const { id, label } = filter;
  if (filtered.length === 0) {
    const why = 'the session has no filtered frames of it';
    const report = {
      id,
      label,
      curveFile: null,
      bands: [],
      outOfBand: { absent: why },
      beam: [],
      sky: { absent: why },
      price: filter.price,
      lampDrift: null,
    };
    return { report, curve: null, inUse: null, warnings: [] };
  }
  const noise: Pick<NoiseModel, 'readVariance'> = frames.noise;
  const measured = transmittanceCurve(filtered, open, { noise });
  const scaled = curveOnScale(measured, calibration.dispersion);
  const file = curveFileName(id);
  const curve = {
    filter: id,
    file,
    wavelengthNm: scaled.curve.wavelengthNm,
    transmittance: scaled.curve.transmittance,
    standardUncertainty: scaled.standardUncertainty,
  };
  const whyNone = (): string =>
    noPassband(filtered, open, scaled, (pixel) => wavelengthAt(calibration.dispersion, pixel));
  if (scaled.curve.wavelengthNm.length < 5) {
    const why = `nearly no pixel has a transmittance: ${whyNone()}`;
    const report = {
      id,
      label,
      curveFile: file,
      bands: [],
      outOfBand: { absent: why },
      beam: [],
      sky: { absent: why },
      price: filter.price,
      lampDrift: measured.drift,
    };
    return { report, curve, inUse: null, warnings: measured.warnings };
  }
  const ranges = findBands(scaled.curve);
  const targets = bandTargets(filter.lines, ranges);
  const pixels = measured.transmittance.length;
  const { repeatScatter: repeat } = measured;
  const levels = {
    // The open beam of a scan is the mean of the two scans that bracket it.
    flicker: options.flicker * Math.sqrt(1 / framesOf(filtered) + 1 / (2 * framesOf(open))),
    repeat: repeat === null ? 0 : repeat.relative / Math.sqrt(repeat.repeats),
    nonLinearity: options.nonLinearity,
  };
  const leastDrift = isSingleScan(open) ? options.singleOpenDrift : 0;
  const bands = ranges.map((range, index) => {
    const bandName = ranges.length === 1 ? label : `${label}, band ${index + 1} of ${ranges.length}`;
    const trials = {
      seed: bandSeed(options.seed, id, index),
      draws: options.draws,
      onBlock: (draws: number): void => onStep?.(`measure ${bandName}: ${howFar(draws, options.draws)}`),
    };
    const darkLevel = darkLevelOf(scaled, range);
    return measureBand(scaled, range, targets[index]!, {
      calibration,
      pixels,
      levels: darkLevel > 0 ? { ...levels, darkLevel } : levels,
      leastDrift,
      trials,
    });
  });
  const warnings: Warning[] = [
    ...measured.warnings,
    ...(bands.length === 0 ? [{ where: id, what: `no passband found: ${whyNone()}` }] : []),
    ...bandWarnings({ id, lines: filter.lines, ranges, bands, coveredNm: calibration.coveredNm }),
  ];
  const { flicker, repeat: repeated, nonLinearity } = levels;
  const limits = blockingLimits(
    scaled,
    Math.hypot(flicker, repeated, nonLinearity / Math.sqrt(3), leastDrift),
  );
  const seen = { curve: scaled.curve, bands: ranges, limits };
  const inUse = curveInUse(
    scaled.curve,
    bands.map((band) => band.curve),
  );
  const usage = { bench: options.bench, seed: bandSeed(options.seed, id, ranges.length), draws: USAGE_DRAWS };
  const claims = judgeClaims(bands, filter.claims, seen, options.rule);
  const context = {
    label,
    bench: options.bench,
    scans: filtered.length,
    frames: filtered.reduce((sum, spectrum) => sum + spectrum.frames, 0),
  };
  const reports = bands.map(({ report }, index) => ({
    ...report,
    claims: claims[index]!,
    quote: quoteBand(report, context),
    furtherQuotes: furtherQuotes(report, context),
  }));
  return {
    report: {
      id,
      label,
      curveFile: file,
      bands: reports,
      outOfBand: outOfBand(scaled.curve, ranges, limits),
      beam: options.statesBeam ? beamReport(inUse, reports, options.conditions.beam, usage) : [],
      sky:
        options.sky === null
          ? { absent: 'the session states no site' }
          : skyReport(inUse, reports, options.conditions, options.sky, {
              ...usage,
              skySeed: options.seed,
              price: filter.price,
            }).report,
      price: filter.price,
      lampDrift: measured.drift,
    },
    curve,
    inUse,
    warnings,
  };
}

/** How far the trials are: a share where their count is fixed. */
function howFar(draws: number, of: number | null): string {
  return of === null ? `${draws} draws` : `${Math.round((100 * draws) / of)} % of the draws`;
}

/** Whether the open beam was scanned but once, whatever the exposures. */
function isSingleScan(open: readonly CleanSpectrum[]): boolean {
  const exposures = new Set(open.map((spectrum) => spectrum.exposureMs));
  return exposures.size === open.length && new Set(open.map((spectrum) => spectrum.takenAtMs)).size === 1;
}

/** What darks of another exposure leave open, the mean over a band's pixels. */
function darkLevelOf({ curve, darkShared }: ScaledCurve, { blueNm, redNm }: BandRange): number {
  const inBand = darkShared.filter(
    (_, i) => curve.wavelengthNm[i]! >= blueNm && curve.wavelengthNm[i]! <= redNm,
  );
  return inBand.length === 0 ? 0 : Math.abs(inBand.reduce((sum, value) => sum + value, 0)) / inBand.length;
}

/** Frames behind the scan with the fewest. */
function framesOf(spectra: readonly CleanSpectrum[]): number {
  return Math.min(...spectra.map((spectrum) => spectrum.frames));
}

/** A seed for each band of its own, from the session's: order and number of other filters do not matter. */
function bandSeed(seed: number, id: string, band: number): number {
  let hash = seed ^ 0x9e3779b9;
  for (const sign of `${id} ${band}`) hash = Math.imul(hash ^ sign.codePointAt(0)!, 0x01000193);
  return hash >>> 0;
}

/** A plain file name from a filter's id: characters other than letters, digits, dot, dash and underscore are spelt out. */
function curveFileName(id: string): string {
  const plain = id.replace(/[^A-Za-z0-9._-]/gu, (sign) => `_${sign.codePointAt(0)!.toString(16)}_`);
  return `curve-${plain}.csv`;
}
