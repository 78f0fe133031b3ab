import type { Calibration } from '../calibration/index.js';
import type { CleanSpectrum, NoiseModel, ReducedFrames, Warning } from '../frames/index.js';
import { findBands, outOfBand } from '../metrics/index.js';
import type { BenchConditions, FilterEntry } from '../session/benchSession.js';
import { transmittanceCurve } from '../transmittance/index.js';
import type { DecisionRule } from '../verdict/index.js';
import { bandTargets, linesOutsideBands } from './bandTargets.js';
import { curveOnScale } from './curveOnScale.js';
import { judgeClaims } from './judgeClaims.js';
import { measureBand } from './measureBand.js';
import type { CurveTable, FilterReport } from './measurement.js';
import { quoteBand } from './quoteBand.js';

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
}

/** One filter measured. */
export interface MeasuredFilter {
  readonly report: FilterReport;
  readonly curve: CurveTable | null;
  readonly warnings: readonly Warning[];
}

/**
 * Measures one filter of a session: curve, bands, blocking, claims.
 *
 * @param filter - the session's entry
 * @param frames - clean spectra of the session
 * @param calibration - scale and line spread
 * @param options - trials and level uncertainties of the session
 * @returns report and curve
 */
export function measureFilter(
  filter: FilterEntry,
  frames: Pick<ReducedFrames, 'spectra' | 'noise'>,
  calibration: Calibration,
  options: FilterOptions,
): MeasuredFilter {
  const filtered = frames.spectra.filter(
    (spectrum) => spectrum.role === 'filtered' && spectrum.filter === filter.id,
  );
  const open = frames.spectra.filter((spectrum) => spectrum.role === 'open');
  const { id, label } = filter;
  if (filtered.length === 0) {
    const why = 'the session has no filtered frames of it';
    const report = { id, label, curveFile: null, bands: [], outOfBand: { absent: why }, lampDrift: null };
    return { report, curve: null, warnings: [] };
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
  if (scaled.curve.wavelengthNm.length < 5) {
    const why = 'the open beam is too weak or clipped in nearly every pixel';
    const report = {
      id,
      label,
      curveFile: file,
      bands: [],
      outOfBand: { absent: why },
      lampDrift: measured.drift,
    };
    return { report, curve, warnings: measured.warnings };
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
  const bands = ranges.map((range, index) => {
    const trials = { seed: bandSeed(options.seed, id, index), draws: options.draws };
    return measureBand(scaled, range, targets[index]!, {
      calibration,
      pixels,
      levels,
      leastDrift: isSingleScan(open) ? options.singleOpenDrift : 0,
      trials,
    });
  });
  const warnings: Warning[] = [...measured.warnings];
  if (bands.length === 0) {
    const what =
      'no passband stands out of the noise, or its pixels are clipped or too weak in the open beam';
    warnings.push({ where: id, what });
  }
  for (const line of bands.length === 0 ? [] : linesOutsideBands(filter.lines, ranges)) {
    const what = `the line ${line.name} (${line.wavelengthNm.toFixed(1)} nm) that the session names lies in no passband`;
    warnings.push({ where: id, what });
  }
  for (const { report: band } of bands) {
    if (!band.extrapolated) continue;
    const [from, to] = calibration.coveredNm;
    warnings.push({
      where: id,
      what:
        `the band for ${band.target.join(', ') || 'no named line'} reaches beyond the lamp lines used ` +
        `(${from.toFixed(1)} to ${to.toFixed(1)} nm): its wavelengths are extrapolated`,
    });
  }
  const claims = judgeClaims(bands, filter.claims, scaled, options.rule, ranges);
  const context = {
    label,
    bench: options.bench,
    scans: filtered.length,
    frames: filtered.reduce((sum, spectrum) => sum + spectrum.frames, 0),
  };
  return {
    report: {
      id,
      label,
      curveFile: file,
      bands: bands.map(({ report }, index) => ({
        ...report,
        claims: claims[index]!,
        quote: quoteBand(report, context),
      })),
      outOfBand: outOfBand(scaled.curve, ranges, { floor: scaled.floor }),
      lampDrift: measured.drift,
    },
    curve,
    warnings,
  };
}

/** Whether the open beam was scanned but once, whatever the exposures. */
function isSingleScan(open: readonly CleanSpectrum[]): boolean {
  const exposures = new Set(open.map((spectrum) => spectrum.exposureMs));
  return exposures.size === open.length && new Set(open.map((spectrum) => spectrum.takenAtMs)).size === 1;
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
