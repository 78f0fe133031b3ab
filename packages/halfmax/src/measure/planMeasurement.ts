import type { Calibration } from '../calibration/index.js';
import { type ReducedFrames, reduceFrames, type Warning } from '../frames/index.js';
import type { BenchSession, FilterEntry } from '../session/benchSession.js';
import { assumptions } from './assumptions.js';
import { calibrateSession, instrumentScaleOf } from './calibrateSession.js';
import { calibrationReport } from './calibrationReport.js';
import { conditionsOf } from './conditions.js';
import { decisionReport } from './decisionReport.js';
import type { FilterOptions, MeasuredFilter } from './measureFilter.js';
import type { CurveTable, Measurement, Provenance, UsageReport } from './measurement.js';
import { skyOf } from './skyReport.js';

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

/** All that one filter is measured from: plain data, so that it can be done anywhere. */
export interface FilterJob {
  readonly filter: FilterEntry;
  readonly frames: Pick<ReducedFrames, 'spectra' | 'noise'>;
  readonly calibration: Calibration;
  readonly options: FilterOptions;
}

/** A session made ready: its filters do not depend on one another. */
export interface MeasurementPlan {
  readonly jobs: readonly FilterJob[];
  /** Puts the measurement together; filters in the order of the jobs. */
  readonly finish: (filters: readonly MeasuredFilter[]) => MeasuredSession;
}

/**
 * The part of a session that all filters share: clean frames, wavelength scale, what is assumed.
 *
 * @param session - read from its folder, or made in memory
 * @param options - provenance to be written down, progress
 * @returns a job for each filter, and how the measurement is put together
 * @throws {BadInputError} frames that cannot be used, lamps that give no wavelength scale
 */
export function planMeasurement(session: BenchSession, options: MeasureOptions): MeasurementPlan {
  const step = options.onStep ?? ((): void => {});
  step('clean the frames');
  const frames = reduceFrames(session.entries, session.detector);
  step('calibrate the wavelengths');
  const calibration = calibrateSession(frames.spectra, session.detector);
  const ownScale = instrumentScaleOf(frames.spectra, calibration);
  const assumed = assumptions(session, frames, calibration);
  const decision = decisionReport(session.decision);
  const { site, beam } = session.manifest;
  const conditions = conditionsOf(session.manifest);
  const sky = site === undefined ? null : skyOf(conditions, session.skySpectrum ?? undefined);
  const usage: UsageReport | { readonly absent: string } =
    sky === null
      ? { absent: 'the session states no site' }
      : {
          vMagnitude: sky.vMagnitude,
          parts: sky.parts,
          nightHours: conditions.site.nightHours,
          assumed: [...conditions.assumed, ...sky.assumed],
        };
  const filterOptions: FilterOptions = {
    seed: options.provenance.seed,
    draws: options.provenance.draws === 0 ? null : options.provenance.draws,
    flicker: assumed.flicker,
    nonLinearity: assumed.nonLinearity,
    singleOpenDrift: assumed.singleOpenDrift,
    rule: decision.rule,
    bench: session.bench,
    conditions,
    statesBeam: beam !== undefined,
    sky: sky?.sky ?? null,
  };
  const needed = { spectra: frames.spectra.filter(({ role }) => role !== 'lamp'), noise: frames.noise };
  return {
    jobs: session.filters.map((filter) => ({ filter, frames: needed, calibration, options: filterOptions })),
    finish: (filters) => {
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
        conditions: { ...(site === undefined ? {} : { site }), ...(beam === undefined ? {} : { beam }) },
        usage,
        assumptions: assumed.list,
        warnings,
      };
      return {
        measurement,
        curves: filters.flatMap((filter) => (filter.curve === null ? [] : [filter.curve])),
      };
    },
  };
}
