import { BadInputError } from '../errors.js';
import type { Detector, Warning } from '../frames/types.js';
import { evaluatePolynomial } from '../numeric/index.js';
import { knownLamps, lampLines, lampSpecies } from '../reference/index.js';
import type { Calibration } from './calibration.js';
import { describeCalibration } from './describeCalibration.js';
import type { DispersionFit } from './describeDispersion.js';
import { wavelengthAt } from './dispersion.js';
import { findLines, relocateLines } from './findLines.js';
import { identifyLamps } from './identifyLamps.js';
import { widthCourse } from './lineWidths.js';
import { type CommonShape, measureLineShape } from './measureLineShape.js';
import { lineSpreadAt, measureLineSpread } from './measureLineSpread.js';
import { nameAndFit } from './nameAndFit.js';
import { nearestPixel } from './nearestPixel.js';
import { refuseLamps } from './refuseLamps.js';
import { refuseWrongLabels } from './refuseWrongLabels.js';
import type { LabelledLamp, RoughScale } from './roughScale.js';
import type { LampSpectrum, LineSpread } from './types.js';

/** Standard uncertainty of the centroid of a skewed line over skewness and standard deviation. Own simulation. */
const SKEW_SHARE = 0.14;
/** Largest distance of a found line from its known one, in line-spread widths, round by round. */
const NAMING_WINDOWS: readonly number[] = [0.5, 0.35, 0.3];

/**
 * Calibrates the wavelengths of a detector from lamp spectra: finds the lines, names them without a hint, fits the
 * dispersion and measures the line spread.
 *
 * @param spectra - one per lamp label, each of the detector's length
 * @param detector - length, and nominal range where the session states one
 * @returns the calibration
 * @throws {BadInputError} unknown lamp label, lamp without lines, lines that no scale explains, wrong lamp label
 */
export function calibrate(spectra: readonly LampSpectrum[], detector: Detector): Calibration {
  const lamps = spectra.map(labelledLamp);
  const warnings: Warning[] = [];
  const rough = identifyLamps(lamps, detector, warnings);
  refuseWrongLabels(lamps, rough, warnings);

  let state = nameAndFit(lamps, roughScaleOf(rough), detector.pixels, NAMING_WINDOWS[0]!);
  const common = measureLineShape(state.named, spectra);
  for (const windowWidths of NAMING_WINDOWS.slice(1)) {
    const { fit } = state;
    const wavelengthOf = (pixel: number): number => wavelengthAt(fit.dispersion, pixel);
    const located = lamps.map((lamp, index) =>
      relocate(lamp, spectra[index]!, wavelengthOf, common, detector.pixels),
    );
    state = nameAndFit(located, wavelengthOf, detector.pixels, windowWidths);
  }
  const lineSpread = measureLineSpread(state.named, state.fit.dispersion, common);
  if ('absent' in lineSpread) {
    const fix = 'add lamp frames with a bright line that is not clipped';
    return refuseLamps(lamps, `the line spread cannot be measured: ${lineSpread.absent}`, fix);
  }
  return describeCalibration(state.named, withSkew(state.fit, lineSpread), lineSpread, warnings);
}

/** Where the line spread is skewed, its centroid is known less well than its core: a share of the skewness. */
function withSkew(fit: DispersionFit, spread: LineSpread): DispersionFit {
  const middleNm = fit.dispersion.coefficients[0]!;
  const sigmaNm = lineSpreadAt(spread, clampTo(middleNm, spread.linesNm)).fwhmNm / 2.355;
  const skewNm = SKEW_SHARE * Math.abs(spread.skewness) * sigmaNm;
  const covariance = fit.dispersion.covariance.map((row) => Float64Array.from(row));
  covariance[0]![0]! += skewNm ** 2;
  const couplingNm = Math.hypot(fit.couplingNm, skewNm);
  return { ...fit, couplingNm, dispersion: { ...fit.dispersion, covariance } };
}

function clampTo(nm: number, ascending: readonly number[]): number {
  return Math.min(Math.max(nm, ascending[0]!), ascending[ascending.length - 1]!);
}

function roughScaleOf(rough: RoughScale): (pixel: number) => number {
  return (pixel) => evaluatePolynomial(rough.coefficients, (pixel - rough.pivotPixel) / rough.pixelScale);
}

/** Locates a lamp's lines again with the common shape, known lines on their flanks taken along. */
function relocate(
  { lamp, known }: LabelledLamp,
  spectrum: LampSpectrum,
  wavelengthOf: (pixel: number) => number,
  common: CommonShape,
  pixels: number,
): LabelledLamp {
  const widthAt = widthCourse([{ lamp, known }]);
  const hidden: number[] = [];
  for (const { wavelengthNm } of known) {
    const pixel = nearestPixel(wavelengthOf, wavelengthNm, pixels);
    const step = wavelengthOf(pixel + 1) - wavelengthOf(pixel);
    const place = pixel + (wavelengthNm - wavelengthOf(pixel)) / step;
    const near = lamp.lines.some((line) => Math.abs(line.pixel - place) < 0.35 * widthAt(place));
    if (place > 0 && place < pixels - 1 && !near) hidden.push(place);
  }
  return {
    lamp: { ...lamp, lines: relocateLines(spectrum, lamp.lines, widthAt, hidden, common.shape) },
    known,
  };
}

function labelledLamp(spectrum: LampSpectrum): LabelledLamp {
  const species = lampSpecies(spectrum.label);
  if (species === null) {
    throw new BadInputError([
      {
        where: 'session.json',
        place: spectrum.where,
        what: `lamp "${spectrum.label}" is not in the line table`,
        fix: `use one of ${knownLamps.join(', ')}`,
      },
    ]);
  }
  const known = lampLines.filter((line) => species.includes(line.species));
  return { lamp: { label: spectrum.label, where: spectrum.where, lines: findLines(spectrum) }, known };
}
