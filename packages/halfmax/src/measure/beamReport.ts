import { lineInBeam } from '../beam/index.js';
import { isAbsent } from '../metrics/index.js';
import { emissionLines } from '../reference/index.js';
import type { BenchConditions } from '../session/benchSession.js';
import { type BeamConditions, USUAL_BENCH_C } from './beamConditions.js';
import type { CurveInUse } from './curveInUse.js';
import type { BandReport } from './measurement.js';
import type { BeamLineReport } from './usageReports.js';

/** What the report of a filter needs beside its curve. */
export interface ReportContext {
  readonly bench: BenchConditions;
  readonly seed: number;
  /** Trials a line. @default 2000 */
  readonly draws?: number;
}

/**
 * The lines of a filter against focal ratio.
 *
 * @param curve - the line spread taken out where that could be done
 * @param bands - passbands of the filter, with their target lines
 * @param beam - the telescope's light
 * @param context - bench, seed
 * @returns an entry for each target line; the scale's uncertainty is taken as that of the band's centre
 */
export function beamReport(
  curve: CurveInUse,
  bands: readonly BandReport[],
  beam: BeamConditions,
  context: ReportContext,
): BeamLineReport[] {
  const { bench, draws } = context;
  const difference =
    beam.temperatureC === null ? null : beam.temperatureC - (bench.temperatureC ?? USUAL_BENCH_C);
  return targetsOf(bands).map(({ line, band }) => ({
    line: line.name,
    wavelengthNm: line.wavelengthNm,
    effectiveIndex: beam.effectiveIndex,
    centralObstruction: beam.shape.centralObstruction ?? 0,
    pupil: beam.shape.pupil ?? 'uniform',
    chiefRayDeg: beam.shape.chiefRayDeg ?? 0,
    tiltDeg: beam.shape.tiltDeg ?? 0,
    measuredAtFNumber: bench.fNumber,
    corrected: isCorrected(band),
    temperatureDifferenceK: difference,
    ...lineInBeam(curve, line.wavelengthNm, beam.fNumbers, {
      beam: beam.shape,
      effectiveIndex: beam.effectiveIndex,
      ...(bench.fNumber === null ? {} : { measuredIn: { fNumber: bench.fNumber } }),
      ...(difference === null
        ? {}
        : { temperature: { differenceK: difference, nmPerK: beam.temperatureNmPerK } }),
      scaleNm: scaleOf(band),
      level: levelOf(band, curve),
      trials: curve.trials,
      share: beam.share,
      seed: context.seed,
      ...(draws === undefined ? {} : { draws }),
    }),
  }));
}

/** The emission lines that bands are for, each with its band. */
export function targetsOf(
  bands: readonly BandReport[],
): { readonly line: (typeof emissionLines)[number]; readonly band: BandReport }[] {
  return bands.flatMap((band) =>
    emissionLines.filter((line) => band.target.includes(line.name)).map((line) => ({ line, band })),
  );
}

/** Standard uncertainty of a band's place, nm. */
export function scaleOf(band: BandReport): number {
  const { centreNm } = band.asMeasured;
  return isAbsent(centreNm) ? 0 : centreNm.standardUncertainty;
}

/** Whether a band has its line spread taken out; the measurement of an earlier version does not say. */
export function isCorrected({ correctedCurve }: Partial<Pick<BandReport, 'correctedCurve'>>): boolean {
  return correctedCurve !== undefined && !isAbsent(correctedCurve);
}

/**
 * Relative standard uncertainty of a band's height, taken as common to all of the curve: an upper bound. A corrected band
 * without trials of its shape has that of the corrected height.
 */
export function levelOf(band: BandReport, { trials }: CurveInUse): number {
  const numbers = isCorrected(band) && trials.length === 0 ? band.corrected : band.asMeasured;
  const { peakTransmittance } = numbers;
  if (isAbsent(peakTransmittance) || !(peakTransmittance.value > 0)) return 0;
  return peakTransmittance.standardUncertainty / peakTransmittance.value;
}
