import type { Calibration } from '../calibration/index.js';
import { type ReducedFrames, reduceFrames, type Warning } from '../frames/index.js';
import type { BenchSession, FilterEntry } from '../session/benchSession.js';
import { assumptions } from './assumptions.js';
import { calibrateSession, instrumentScaleOf } from './calibrateSession.js';
import { calibrationReport } from './calibrationReport.js';
import { conditionsOf } from './conditions.js';
import type { CurveInUse } from './curveInUse.js';
import { decisionReport } from './decisionReport.js';
import { type FilterOptions, type MeasuredFilter, USAGE_DRAWS } from './measureFilter.js';
import type { CurveTable, Measurement, Provenance } from './measurement.js';
import { type MeasuredStars, type StarJob, starJobs } from './measureStars.js';
import { skyOf } from './skyOf.js';
import { starReports } from './starReports.js';

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
  /** The curves by which filters are judged in the telescope, by id: line spread taken out where that can be done. */
  readonly inUse: Readonly<Record<string, CurveInUse>>;
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
  /** A job for each star of the session. */
  readonly starJobs: readonly StarJob[];
  /** Puts the measurement together; filters and stars in the order of the jobs. */
  readonly finish: (filters: readonly MeasuredFilter[], stars: readonly MeasuredStars[]) => MeasuredSession;
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
  const sky =
    site === undefined
      ? null
      : skyOf(conditions, session.skySpectrum ?? undefined, {
          seed: options.provenance.seed,
          draws: USAGE_DRAWS,
        });
  const usage: Measurement['usage'] =
    sky === null
      ? { absent: 'the session states no site', assumed: beam === undefined ? [] : conditions.beamAssumed }
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
    sky,
  };
  const needed = { spectra: frames.spectra.filter(({ role }) => role !== 'lamp'), noise: frames.noise };
  return {
    jobs: session.filters.map((filter) => ({ filter, frames: needed, calibration, options: filterOptions })),
    starJobs: starJobs(session.stars ?? [], options.provenance.seed),
    finish: (filters, measuredStars) => {
      const stars = starReports(session, measuredStars, { conditions, sky: sky?.sky ?? null, filters });
      const warnings: Warning[] = [
        ...session.warnings,
        ...frames.warnings,
        ...calibration.warnings,
        ...filters.flatMap((filter) => filter.warnings),
        ...stars.warnings,
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
        halos: stars.halos,
        haloComparisons: stars.haloComparisons,
        conditions: { ...(site === undefined ? {} : { site }), ...(beam === undefined ? {} : { beam }) },
        usage,
        assumptions: assumed.list,
        warnings,
      };
      return {
        measurement,
        curves: filters.flatMap((filter) => (filter.curve === null ? [] : [filter.curve])),
        inUse: Object.fromEntries(
          filters.flatMap(({ report, inUse }) => (inUse === null ? [] : [[report.id, inUse] as const])),
        ),
      };
    },
  };
}
