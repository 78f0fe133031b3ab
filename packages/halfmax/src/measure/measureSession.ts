import { reduceFrames, type Warning } from '../frames/index.js';
import type { BenchSession } from '../session/benchSession.js';
import { assumptions } from './assumptions.js';
import { calibrateSession, instrumentScaleOf } from './calibrateSession.js';
import { calibrationReport } from './calibrationReport.js';
import { decisionReport } from './decisionReport.js';
import { measureFilter } from './measureFilter.js';
import type { CurveTable, Measurement, Provenance } from './measurement.js';

/** How to measure, and what to write down of it. */
export interface MeasureOptions {
  readonly provenance: Omit<Provenance, 'inputs'>;
  /** Told before each step of the work. */
  readonly onStep?: (step: string) => void;
}

/** A measurement with its curves. */
export interface MeasuredSession {
  readonly measurement: Measurement;
  readonly curves: readonly CurveTable[];
}

/**
 * The whole job: from a session's raw frames to calibrated curves, passband numbers and verdicts.
 *
 * @param session - read from its folder, or made in memory
 * @param options - provenance to be written down, progress
 * @returns measurement and curves
 * @throws {BadInputError} frames that cannot be used, lamps that give no wavelength scale
 */
export function measureSession(session: BenchSession, options: MeasureOptions): MeasuredSession {
  const step = options.onStep ?? ((): void => {});
  step('clean the frames');
  const frames = reduceFrames(session.entries, session.detector);
  step('calibrate the wavelengths');
  const calibration = calibrateSession(frames.spectra, session.detector);
  const ownScale = instrumentScaleOf(frames.spectra, calibration);
  const assumed = assumptions(session, frames, calibration);
  const decision = decisionReport(session.decision);
  const filters = session.filters.map((filter) => {
    step(`measure ${filter.label}`);
    return measureFilter(filter, frames, calibration, {
      seed: options.provenance.seed,
      draws: options.provenance.draws === 0 ? null : options.provenance.draws,
      flicker: assumed.flicker,
      nonLinearity: assumed.nonLinearity,
      rule: decision.rule,
      bench: session.bench,
    });
  });
  const warnings: Warning[] = [
    ...session.warnings,
    ...frames.warnings,
    ...calibration.warnings,
    ...filters.flatMap((filter) => filter.warnings),
  ];
  const measurement: Measurement = {
    format: 'halfmax-measurement/1',
    title: session.title,
    recorded: session.recorded,
    provenance: { ...options.provenance, inputs: session.inputs },
    frames: { noise: frames.noise, rejected: frames.rejected },
    calibration: calibrationReport(calibration, session.detector.pixels, ownScale),
    decision,
    filters: filters.map((filter) => filter.report),
    assumptions: assumed.list,
    warnings,
  };
  return { measurement, curves: filters.flatMap((filter) => (filter.curve === null ? [] : [filter.curve])) };
}
