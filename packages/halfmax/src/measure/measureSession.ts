import type { BenchSession } from '../session/benchSession.js';
import { measureFilter } from './measureFilter.js';
import { measureStars } from './measureStars.js';
import { type MeasuredSession, type MeasureOptions, planMeasurement } from './planMeasurement.js';

/**
 * The whole job: from a session's raw frames to calibrated curves, passband numbers, halos and verdicts.
 *
 * @param session - read from its folder, or made in memory
 * @param options - provenance to be written down, progress
 * @returns measurement and curves
 * @throws {BadInputError} frames that cannot be used, lamps that give no wavelength scale
 * @throws {Error} stars, on a machine without vectors in WebAssembly
 */
export function measureSession(session: BenchSession, options: MeasureOptions): MeasuredSession {
  const step = options.onStep ?? ((): void => {});
  const { jobs, starJobs, finish } = planMeasurement(session, options);
  return finish(
    jobs.map(({ filter, frames, calibration, options: filterOptions }) => {
      step(`measure ${filter.label}`);
      return measureFilter(filter, frames, calibration, filterOptions, step);
    }),
    starJobs.map((job) => measureStars(job, step)),
  );
}
