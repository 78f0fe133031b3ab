import { curveInBeam } from '../beam/index.js';
import { type Absent, absent, isAbsent } from '../metrics/index.js';
import { type EmissionLine, emissionLines } from '../reference/index.js';
import {
  type ContinuumLoss,
  continuumLoss,
  detectedParts,
  filterOnSky,
  filterValue,
  type LineOnSky,
  type Sky,
  skyNoiseSpread,
  type UncertainSky,
} from '../sky/index.js';
import type { BeamConditions } from './beamConditions.js';
import { isCorrected, levelOf, type ReportContext, scaleOf, targetsOf } from './beamReport.js';
import type { Conditions } from './conditions.js';
import type { CurveInUse } from './curveInUse.js';
import type { BandReport } from './measurement.js';
import { lineBrightness, lineStrength } from './siteConditions.js';
import type { SkyReport } from './usageReports.js';

/** Colour of a target without lines. */
const SUN_K = 5772;

/**
 * What a filter does under the site's sky in the first of the session's beams.
 *
 * @param curve - the line spread taken out where that could be done
 * @param bands - passbands of the filter, with their target lines
 * @param conditions - beam, site, camera
 * @param sky - from `skyOf`, or one that is known exactly
 * @param context - bench, seed; the price of the filter
 * @returns the report with the trials of each line, or why there is none
 */
export function skyReport(
  curve: CurveInUse,
  bands: readonly BandReport[],
  conditions: Conditions,
  sky: Sky | UncertainSky,
  context: ReportContext & {
    /** Of the trials of sky and target, which filters share that are compared. @default 1 */
    readonly skySeed?: number;
    readonly price: { readonly amount: number; readonly currency: string } | null;
  },
): { readonly report: SkyReport | Absent; readonly trials: readonly LineOnSky[] } {
  const { beam, site } = conditions;
  const targets = targetsOf(bands);
  if (targets.length === 0) return { report: absent('no passband is for a known line'), trials: [] };
  const range = { fromNm: site.rangeNm[0], toNm: site.rangeNm[1] };
  const measuredIn = context.bench.fNumber === null ? {} : { measuredIn: { fNumber: context.bench.fNumber } };
  const draws = context.draws === undefined ? {} : { draws: context.draws };
  const shape = { ...beam.shape, fNumber: beam.fNumbers[0]! };
  const found = filterOnSky(
    curve,
    targets.map(({ line, band }) => ({
      name: line.name,
      wavelengthNm: line.wavelengthNm,
      brightness: lineBrightness(site, line),
      strength: lineStrength(site, line, { seed: context.skySeed ?? 1, ...draws }),
      group: groupOf(line, band),
    })),
    sky,
    {
      camera: site.camera,
      beam: shape,
      ...measuredIn,
      effectiveIndex: beam.effectiveIndex,
      scaleNm: Math.max(...targets.map(({ band }) => scaleOf(band))),
      level: Math.max(...targets.map(({ band }) => levelOf(band, curve))),
      trials: curve.trials,
      range,
      goal: site.goal,
      ...(site.frameS === null ? {} : { frameS: site.frameS }),
      ...(site.sky.airmass === undefined ? {} : { airmass: site.sky.airmass }),
      ...(site.sky.aerosol === undefined ? {} : { aerosol: site.sky.aerosol }),
      seed: context.seed,
      ...draws,
    },
  );
  if (isAbsent(found)) return { report: found, trials: [] };
  const detected = detectedParts(sky, site.camera.quantumEfficiency);
  const lossAt = (effectiveIndex: number): ContinuumLoss =>
    continuumLoss(
      curveInBeam(curve, shape, { effectiveIndex, ...measuredIn }),
      SUN_K,
      detected.sky,
      site.camera.quantumEfficiency,
      range,
    );
  const loss = lossAt(middle(beam));
  const inMiddle = curveInBeam(curve, shape, { effectiveIndex: middle(beam), ...measuredIn });
  const ends = beam.effectiveIndex.map(lossAt);
  // All of the index's range as likely: its ends differ by twice the half width of a rectangle.
  const ofIndex = (of: (one: ContinuumLoss) => number): number =>
    Math.abs(of(ends[1]!) - of(ends[0]!)) / (2 * Math.sqrt(3));
  const { lines, skyTransmittance, effectiveWidthNm, skyPerPixel, skyLimitedFrameS } = found;
  return {
    trials: lines,
    report: {
      fNumber: shape.fNumber,
      corrected: targets.every(({ band }) => isCorrected(band)),
      skyTransmittance,
      effectiveWidthNm,
      skyPerPixel,
      skyLimitedFrameS,
      frameS: found.frameS,
      lines: lines.map(({ quality, openQuality, ...line }) => {
        const { nightHours, nights } = site;
        const value = filterValue(quality, openQuality, { nightHours, nights, price: context.price });
        return {
          ...line,
          hoursToEqualNight: value.hoursToEqual,
          hoursSavedPerNight: value.hoursSaved,
          pricePerHourSaved: value.pricePerHour,
        };
      }),
      continuum: {
        temperatureK: SUN_K,
        share: loss.share,
        shareUncertainty: Math.hypot(
          loss.standardUncertainty,
          ofIndex(({ share }) => share),
          loss.share * Math.max(...targets.map(({ band }) => levelOf(band, curve))),
        ),
        magnitudesLost: loss.share > 0 ? loss.magnitudes : absent('nothing of it is left'),
        signalToNoise: loss.signalToNoise,
        signalToNoiseUncertainty: Math.hypot(
          ofIndex(({ signalToNoise }) => signalToNoise),
          loss.signalToNoise * skyNoiseSpread(inMiddle, detected, range),
        ),
      },
      rangeNm: site.rangeNm,
      unseenNm: found.unseenNm,
    },
  };
}

/** Lines of one species in one band are a doublet for whoever takes the picture. */
function groupOf(line: EmissionLine, band: BandReport): string {
  const fellows = emissionLines.filter(
    ({ name, species }) => species === line.species && band.target.includes(name),
  );
  return fellows.length < 2 ? line.name : `${line.species}, both lines`;
}

function middle({ effectiveIndex: [low, high] }: BeamConditions): number {
  return (low + high) / 2;
}
