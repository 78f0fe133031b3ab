import { type Calibration, lineSpreadAt } from '../calibration/index.js';
import { type BandCorrection, bandValue, correctBand } from '../correction/index.js';
import {
  type BandMetrics,
  type BandRange,
  describeBand,
  isAbsent,
  type Quantity,
  transmittanceAt,
} from '../metrics/index.js';
import type { EmissionLine } from '../reference/index.js';
import { type BandCurve, bandCurve } from './bandCurve.js';
import { relativeDrift } from './bandDrift.js';
import { bandModel, type OutputName } from './bandModel.js';
import { type BandSpread, bandSpread, type TrialOptions } from './bandSpread.js';
import type { BandTargets } from './bandTargets.js';
import type { ScaledCurve } from './curveOnScale.js';
import type { LevelUncertainty } from './levelInputs.js';
import type { BandNumbers, BandReport, LineReport } from './measurement.js';
import { type ScaleUncertainty, scaleUncertainty } from './scaleUncertainty.js';
import { widen } from './widen.js';

/** A band measured, its claims not yet judged, with the Monte Carlo draws behind its numbers. */
export interface UnjudgedBand {
  readonly report: Omit<BandReport, 'claims' | 'quote' | 'furtherQuotes'>;
  readonly spread: BandSpread;
  /** The corrected band as a curve, null where there is none. */
  readonly curve: BandCurve | null;
}

/** What holds for every band of a session. */
export interface BandContext {
  readonly calibration: Calibration;
  /** Length of the detector. */
  readonly pixels: number;
  /** Level uncertainties but the drift, which is found for each band. */
  readonly levels: Omit<LevelUncertainty, 'drift'>;
  /** Relative drift taken where the open scans cannot show any. */
  readonly leastDrift: number;
  readonly trials: TrialOptions;
}

/**
 * Measures one passband: numbers from the pixels, the line spread taken out, and the Monte Carlo of both.
 *
 * @param scaled - the curve on the wavelength scale
 * @param range - the band, from findBands
 * @param lines - the band's lines
 * @param context - scale, line spread, level uncertainties, trials
 * @returns the numbers of the band
 */
export function measureBand(
  scaled: ScaledCurve,
  range: BandRange,
  lines: BandTargets,
  context: BandContext,
): UnjudgedBand {
  const { calibration, pixels } = context;
  const spread = lineSpreadAt(calibration.lineSpread, range.peakNm);
  const lineSpreadNm = spread.fwhmNm;
  const metrics = describeBand(scaled.curve, range, { lineSpreadNm, floor: scaled.floor });
  const correction = corrected(scaled, range, metrics, calibration);
  const scale = scaleUncertainty(calibration.dispersion, pixels);
  const drift = Math.hypot(relativeDrift(scaled, range), context.leastDrift);
  const levels = { ...context.levels, drift };
  const all = [...lines.targets, ...lines.neighbours];
  const band = bandModel({
    curve: scaled.curve,
    noiseParts: scaled.noiseParts,
    range,
    lineSpreadNm,
    lines: all,
    calibration,
    pixels,
    correction,
    levels,
  });
  const trials = bandSpread(band, context.trials);
  const stated = (name: OutputName, value: number | null, why: string): Quantity =>
    value === null ? { absent: why } : trials.quantity(name, value);

  const measuredLines = all.map((line) => transmittanceAt(scaled.curve, line.wavelengthNm, { lineSpreadNm }));
  const asMeasured = (): BandNumbers => ({
    fwhmNm: fromMetrics(metrics.fwhmNm, trials, 'measured fwhm'),
    centreNm: fromMetrics(metrics.centreNm, trials, 'measured centre'),
    peakNm: widen(metrics.peakNm, scale.place),
    peakTransmittance: fromMetrics(metrics.peakTransmittance, trials, 'measured peak'),
    transmittanceAtLine:
      lines.targets.length === 0 ? NO_LINE : fromMetrics(measuredLines[0]!, trials, 'measured line 0'),
  });
  const why = 'absent' in correction ? correction.absent : '';
  const good = 'absent' in correction ? null : correction;
  const read = good?.readings ?? null;
  const curve =
    good === null ? null : bandCurve(band, good, { seed: context.trials.seed, draws: CURVE_DRAWS });
  const correctedLine = (m: number): Quantity =>
    stated(`corrected line ${m}`, good === null ? null : lineValue(good, all[m]!), why);
  const lineReports = all.map(
    (line, m): LineReport => ({
      name: line.name,
      wavelengthNm: line.wavelengthNm,
      isTarget: m < lines.targets.length,
      transmittance: fromMetrics(measuredLines[m]!, trials, `measured line ${m}`),
      corrected: correctedLine(m),
    }),
  );
  const { fwhmNm, centreNm, peakNm, peakTransmittance, ...rest } = metrics;
  const [shortest, longest] = calibration.coveredNm;
  return {
    report: {
      target: lines.targets.map((line) => line.name),
      asMeasured: asMeasured(),
      corrected: {
        fwhmNm: stated('corrected fwhm', read && read.redNm - read.blueNm, why),
        centreNm: stated('corrected centre', read && (read.redNm + read.blueNm) / 2, why),
        peakNm: stated('corrected peak place', read?.peakNm ?? null, why),
        peakTransmittance: stated('corrected peak', read?.peakTransmittance ?? null, why),
        transmittanceAtLine: lines.targets.length === 0 ? NO_LINE : correctedLine(0),
      },
      lines: lineReports,
      details: widenDetails(rest, scale, levels.drift),
      lineSpreadNm: { value: spread.fwhmNm, standardUncertainty: spread.uncertaintyNm },
      correction:
        good === null
          ? { absent: why }
          : {
              method: METHOD,
              misfit: good.misfit,
              secondWay: {
                method: SECOND_METHOD,
                fwhmNm: good.sharpened.readings.redNm - good.sharpened.readings.blueNm,
                peakTransmittance: good.sharpened.readings.peakTransmittance,
                rounds: good.sharpened.rounds,
              },
            },
      correctedCurve:
        curve === null
          ? { absent: why === '' ? 'too many draws of the band have no reading' : why }
          : {
              wavelengthNm: [...curve.wavelengthNm],
              transmittance: [...curve.transmittance],
              standardUncertainty: [...curve.standardUncertainty],
            },
      extrapolated: range.blueNm < shortest || range.redNm > longest,
      budget: trials
        .budget(good === null ? 'measured fwhm' : 'corrected fwhm')
        .map(({ source, standardUncertainty }) => ({
          source,
          standardUncertaintyNm: standardUncertainty,
        })),
      budgets: trials.budgets(good === null ? 'measured' : 'corrected'),
      monteCarlo: trials.summary(good === null ? 'measured fwhm' : 'corrected fwhm'),
    },
    spread: trials,
    curve,
  };
}

/** Trials of a corrected band: a standard deviation is good to 3 %. */
const CURVE_DRAWS = 600;

const NO_LINE: Quantity = { absent: 'the session names no emission line in this band' };
const METHOD =
  'flexible band shape seen through the measured line spread, fitted by least squares with a prior';
const SECOND_METHOD =
  'multiplicative iteration without a model of the band, stopped when the residuals reach the noise';

function fromMetrics(number: Quantity, trials: BandSpread, name: OutputName): Quantity {
  return isAbsent(number) ? number : trials.quantity(name, number.value, number.standardUncertainty);
}

function corrected(
  scaled: ScaledCurve,
  range: BandRange,
  metrics: BandMetrics,
  calibration: Calibration,
): BandCorrection | { readonly absent: string } {
  const { centreNm, fwhmNm, peakTransmittance } = metrics;
  if (isAbsent(fwhmNm)) return fwhmNm;
  if (isAbsent(centreNm)) return centreNm;
  if (isAbsent(peakTransmittance)) return peakTransmittance;
  const measured = {
    centreNm: centreNm.value,
    fwhmNm: fwhmNm.value,
    peakTransmittance: peakTransmittance.value,
  };
  return correctBand(scaled.curve, scaled.openCounts, range, measured, calibration);
}

function lineValue(correction: BandCorrection, line: EmissionLine): number {
  return correction.fits.reduce(
    (sum, fit) => sum + fit.share * bandValue(fit.shape, fit.parameters, line.wavelengthNm),
    0,
  );
}

function widenDetails(
  details: BandReport['details'],
  scale: ScaleUncertainty,
  drift: number,
): BandReport['details'] {
  const { definitions, halfCrossingsNm } = details;
  return {
    ...details,
    halfCrossingsNm: {
      blueNm: widen(halfCrossingsNm.blueNm, scale.place),
      redNm: widen(halfCrossingsNm.redNm, scale.place),
    },
    equivalentWidthNm: widen(details.equivalentWidthNm, (value) => value * drift),
    definitions: {
      ...definitions,
      centroidNm: widen(definitions.centroidNm, scale.place),
      peakWavelengthNm: widen(definitions.peakWavelengthNm, scale.place),
      absoluteHalf: {
        centreNm: widen(definitions.absoluteHalf.centreNm, scale.place),
        widthNm: definitions.absoluteHalf.widthNm,
      },
      meanTop: widen(definitions.meanTop, (value) => value * drift),
      maximumSample: widen(definitions.maximumSample, (value) => value * drift),
    },
  };
}
