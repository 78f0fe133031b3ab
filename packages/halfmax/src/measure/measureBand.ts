import { type Calibration, lineSpreadAt } from '../calibration/index.js';
import {
  type BandMetrics,
  type BandRange,
  describeBand,
  isAbsent,
  type Quantity,
  quantity,
  transmittanceAt,
} from '../metrics/index.js';
import type { EmissionLine } from '../reference/index.js';
import type { BandTargets } from './bandTargets.js';
import type { ScaledCurve } from './curveOnScale.js';
import type { BandNumbers, BandReport, LineReport } from './measurement.js';
import { type ScaleUncertainty, scaleUncertainty } from './scaleUncertainty.js';

/** A band measured, its claims not yet judged. */
export type UnjudgedBand = Omit<BandReport, 'claims'>;

const NOT_CORRECTED = { absent: 'the line spread is not taken out by this version' };

/**
 * Measures one passband: numbers from the pixels with the noise, then the uncertainty of scale and lamp added.
 *
 * @param scaled - the curve on the wavelength scale
 * @param range - the band, from findBands
 * @param lines - the band's lines
 * @param calibration - scale and line spread
 * @param pixels - length of the detector
 * @returns the numbers of the band
 */
export function measureBand(
  scaled: ScaledCurve,
  range: BandRange,
  lines: BandTargets,
  calibration: Calibration,
  pixels: number,
): UnjudgedBand {
  const spread = lineSpreadAt(calibration.lineSpread, range.peakNm);
  const metrics = describeBand(scaled.curve, range, { lineSpreadNm: spread.fwhmNm, floor: scaled.floor });
  const scale = scaleUncertainty(calibration.dispersion, pixels);
  const drift = relativeDrift(scaled, range);
  const { blueNm, redNm } = metrics.halfCrossingsNm;
  const widthU = isAbsent(blueNm) || isAbsent(redNm) ? 0 : scale.distance(blueNm.value, redNm.value);
  const report = (line: EmissionLine, isTarget: boolean): LineReport => ({
    name: line.name,
    wavelengthNm: line.wavelengthNm,
    isTarget,
    transmittance: lineTransmittance(scaled, line, spread.fwhmNm, scale, drift),
  });
  const lineReports = [
    ...lines.targets.map((line) => report(line, true)),
    ...lines.neighbours.map((line) => report(line, false)),
  ];
  const first = lineReports.find((line) => line.isTarget);
  const asMeasured: BandNumbers = {
    fwhmNm: widen(metrics.fwhmNm, () => widthU),
    centreNm: widen(metrics.centreNm, scale.place),
    peakNm: widen(metrics.peakNm, scale.place),
    peakTransmittance: widen(metrics.peakTransmittance, (peak) => peak * drift),
    transmittanceAtLine: first?.transmittance ?? { absent: 'the session names no emission line in this band' },
  };
  const { fwhmNm, centreNm, peakNm, peakTransmittance, ...rest } = metrics;
  const [shortest, longest] = calibration.coveredNm;
  return {
    target: lines.targets.map((line) => line.name),
    asMeasured,
    corrected: {
      fwhmNm: NOT_CORRECTED,
      centreNm: NOT_CORRECTED,
      peakNm: NOT_CORRECTED,
      peakTransmittance: NOT_CORRECTED,
      transmittanceAtLine: NOT_CORRECTED,
    },
    lines: lineReports,
    details: widenDetails(rest, scale, drift),
    lineSpreadNm: { value: spread.fwhmNm, standardUncertainty: spread.uncertaintyNm },
    extrapolated: range.blueNm < shortest || range.redNm > longest,
    budget: budgetOf(metrics.fwhmNm, widthU),
  };
}

/** The lamp's drift around the band, relative to the transmittance: common to its pixels, so it moves levels only. */
function relativeDrift(scaled: ScaledCurve, range: BandRange): number {
  const { wavelengthNm, transmittance } = scaled.curve;
  let drift = 0;
  let light = 0;
  for (let i = 0; i < wavelengthNm.length; i++) {
    if (wavelengthNm[i]! < range.blueNm || wavelengthNm[i]! > range.redNm) continue;
    drift += scaled.driftUncertainty[i]!;
    light += Math.abs(transmittance[i]!);
  }
  return light === 0 ? 0 : drift / light;
}

/** A scale error of the wavelength moves the reading along the slope of the curve. */
function lineTransmittance(
  scaled: ScaledCurve,
  line: EmissionLine,
  lineSpreadNm: number,
  scale: ScaleUncertainty,
  drift: number,
): Quantity {
  const read = (nm: number): Quantity => transmittanceAt(scaled.curve, nm, { lineSpreadNm });
  const here = read(line.wavelengthNm);
  if (isAbsent(here)) return here;
  const u = Math.max(scale.place(line.wavelengthNm), 1e-6);
  const before = read(line.wavelengthNm - u);
  const after = read(line.wavelengthNm + u);
  const alongSlope = isAbsent(before) || isAbsent(after) ? 0 : Math.abs(after.value - before.value) / 2;
  return widen(here, (value) => Math.hypot(alongSlope, value * drift));
}

/** Adds a further standard uncertainty in quadrature. */
function widen(number: Quantity, further: (value: number) => number): Quantity {
  if (isAbsent(number)) return number;
  return quantity(number.value, Math.hypot(number.standardUncertainty, further(number.value)));
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

function budgetOf(fwhm: BandMetrics['fwhmNm'], scaleNm: number): BandReport['budget'] {
  const noise = isAbsent(fwhm) ? 0 : fwhm.standardUncertainty;
  const sources = [
    { source: 'count noise of the filtered, open and dark scans', standardUncertaintyNm: noise },
    { source: 'wavelength scale', standardUncertaintyNm: scaleNm },
  ];
  return sources.sort((a, b) => b.standardUncertaintyNm - a.standardUncertaintyNm);
}
