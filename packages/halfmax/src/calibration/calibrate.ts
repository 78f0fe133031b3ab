import { BadInputError, type InputProblem } from '../errors.js';
import type { Detector, Warning } from '../frames/types.js';
import { evaluatePolynomial, interpolateLinear, median } from '../numeric/index.js';
import { knownLamps, type LampLine, lampLines, lampSpecies } from '../reference/index.js';
import { wavelengthAt, wavelengthCovariance } from './dispersion.js';
import { findLines, relocateLines } from './findLines.js';
import { type DispersionFit, fitDispersion, type ScalePoint } from './fitDispersion.js';
import {
  explainedShare,
  identifyScale,
  type LabelledLamp,
  type NominalRange,
  type RoughScale,
} from './identifyScale.js';
import { type CommonShape, lineSpreadAt, measureLineShape, measureLineSpread } from './measureLineSpread.js';
import { type NamedLine, nameLines } from './nameLines.js';
import type { CalibrationLine, Dispersion, LampShift, LampSpectrum, LineSpread } from './types.js';

/** The wavelength scale of a session and how far to trust it. */
export interface Calibration {
  readonly dispersion: Dispersion;
  readonly lines: readonly CalibrationLine[];
  readonly residualRmsNm: number;
  readonly leaveOneOutRmsNm: number;
  readonly leaveOneOutByOrder: readonly { readonly order: number; readonly rmsNm: number }[];
  /** Scatter of the lines beyond their own uncertainty, nm. */
  readonly jitterNm: number;
  /** Shortest and longest wavelength of the lines used: outside, the scale is extrapolated. */
  readonly coveredNm: readonly [number, number];
  readonly lineSpread: LineSpread;
  readonly shifts: readonly LampShift[];
  readonly couplingNm: number;
  readonly warnings: readonly Warning[];
}

/** A lamp whose stronger lines are laid on known ones by less than this share has the wrong label. */
const LEAST_EXPLAINED = 0.2;
/** Lines of a lamp from which a wrong label can be told. */
const ENOUGH_TO_TELL = 4;
/** Fewer lines than this carry no scale with an uncertainty. */
const LEAST_LINES = 5;
/** Standard uncertainty of the centroid of a skewed line over skewness and standard deviation. Own simulation. */
const SKEW_SHARE = 0.14;
/** Share in its own fitted value above which a line's name is checked against the other lines. */
const LONELY_LEVERAGE = 0.6;
/** Strength against a line's own from which another can be taken for it. */
const RIVAL_SHARE = 0.1;
/** With so many clean lines no blended one is needed. */
const ENOUGH_LINES = 8;
/** Uncertainty of a line that was fitted together with a near neighbour, in widths. Common practice, no source. */
const NEAR_BLEND_SHARE = 0.03;
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
  const rough = identifyOrRefuse(lamps, detector, warnings);
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
  return describe(state.named, withSkew(state.fit, lineSpread), lineSpread, warnings);
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

/** Names the lines by a scale and fits a better one through those that can carry it. */
function nameAndFit(
  lamps: readonly LabelledLamp[],
  wavelengthOf: (pixel: number) => number,
  pixels: number,
  windowWidths: number,
): { named: NamedLine[]; fit: DispersionFit } {
  const widthAt = widthCourse(lamps);
  const spreadOf = (nm: number): number => {
    const pixel = nearestPixel(wavelengthOf, nm, pixels);
    return widthAt(pixel) * Math.abs(wavelengthOf(pixel + 0.5) - wavelengthOf(pixel - 0.5));
  };
  let named = admitNearBlends(nameLines(lamps, wavelengthOf, spreadOf, windowWidths));
  for (;;) {
    const usable = named.filter((line) => line.trouble === null);
    if (usable.length < LEAST_LINES) refuseFewLines(lamps, usable.length);
    const fit = fitDispersion(usable.map(scalePoint), pixels);
    const doubtful = doubtfulName(usable, fit, lamps, pixels);
    if (doubtful === null) return { named, fit };
    named = named.map((line) =>
      line === doubtful.line ? { ...line, trouble: doubtful.why, blendWidths: null } : line,
    );
  }
}

/** A line that stands so far from the others that they cannot tell its name from another one. */
function doubtfulName(
  usable: readonly NamedLine[],
  fit: DispersionFit,
  lamps: readonly LabelledLamp[],
  pixels: number,
): { line: NamedLine; why: string } | null {
  const order = usable.map((_, index) => index).sort((a, b) => fit.leverage[b]! - fit.leverage[a]!);
  for (const index of order) {
    if (fit.leverage[index]! < LONELY_LEVERAGE || usable.length < LEAST_LINES) return null;
    const line = usable[index]!;
    const without = fitDispersion(
      usable.filter((other) => other !== line).map(scalePoint),
      pixels,
    ).dispersion;
    const { pixel } = line.found;
    const reach = 3 * Math.sqrt(wavelengthCovariance(without, pixel, pixel));
    const predicted = wavelengthAt(without, pixel);
    const { known } = lamps.find(({ lamp }) => lamp.label === line.lamp)!;
    const rival = known.find(
      (other) =>
        other !== line.known &&
        !other.weak &&
        Math.abs(other.wavelengthNm - predicted) < reach &&
        isRival(other, line.known!),
    );
    if (rival === undefined) continue;
    return {
      line,
      why: `stands alone: the other lines cannot tell it from ${rival.species} ${rival.wavelengthNm.toFixed(2)} nm`,
    };
  }
  return null;
}

/** A line far fainter than another of its species in the table cannot be taken for it. */
function isRival(other: LampLine, line: LampLine): boolean {
  if (other.species !== line.species || other.relativeIntensity === null || line.relativeIntensity === null)
    return true;
  return other.relativeIntensity >= RIVAL_SHARE * line.relativeIntensity;
}

/** Where clean lines are few, lines a full width from a neighbour are used as well, with a wider uncertainty. */
function admitNearBlends(named: readonly NamedLine[]): NamedLine[] {
  if (named.filter((line) => line.trouble === null).length >= ENOUGH_LINES) return [...named];
  return named.map((line) => {
    if (line.blendWidths === null || line.blendWidths < 1) return line;
    const pixelUncertainty = Math.hypot(
      line.found.pixelUncertainty,
      NEAR_BLEND_SHARE * line.found.fwhmPixels,
    );
    return { ...line, trouble: null, found: { ...line.found, pixelUncertainty } };
  });
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

function scalePoint(line: NamedLine): ScalePoint {
  const { pixel, pixelUncertainty } = line.found;
  return { lamp: line.lamp, pixel, pixelUncertainty, wavelengthNm: line.known!.wavelengthNm };
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

function identifyOrRefuse(
  lamps: readonly LabelledLamp[],
  detector: Detector,
  warnings: Warning[],
): RoughScale {
  const { wavelengthStartNm: startNm, wavelengthEndNm: endNm, pixels } = detector;
  const nominal: NominalRange | null = startNm !== null && endNm !== null ? { startNm, endNm } : null;
  const hinted = nominal === null ? null : identifyScale(lamps, pixels, nominal);
  if (hinted !== null && !('absent' in hinted)) return hinted;
  const blind = identifyScale(lamps, pixels, null);
  if (!('absent' in blind)) {
    if (nominal !== null) warnings.push({ where: 'detector', what: nominalIsWrong(nominal, blind, pixels) });
    return blind;
  }
  return refuseLamps(lamps, blind.absent, helpFor(lamps, pixels));
}

function nominalIsWrong(nominal: NominalRange, scale: RoughScale, pixels: number): string {
  const at = (pixel: number): string =>
    evaluatePolynomial(scale.coefficients, (pixel - scale.pivotPixel) / scale.pixelScale).toFixed(0);
  return (
    `the nominal range ${nominal.startNm} to ${nominal.endNm} nm does not fit the lamp lines, which run from ` +
    `${at(0)} to ${at(pixels - 1)} nm; it was not used`
  );
}

/** Tries other labels, so that a refusal can say which lamp the lines look like. */
function helpFor(lamps: readonly LabelledLamp[], pixels: number): string {
  const hints: string[] = [];
  for (const { lamp } of lamps) {
    for (const label of knownLamps) {
      if (label === lamp.label) continue;
      const trial = identifyScale([relabel(lamp, label)], pixels, null);
      if ('absent' in trial || (trial.explained[0] ?? 0) < 0.7) continue;
      hints.push(`the lines of ${lamp.where} ("${lamp.label}") fit a ${label} lamp`);
      break;
    }
  }
  return hints.length > 0
    ? `${hints.join(', and ')}: correct the label`
    : 'check the lamp labels, that the lamps were lit and warm, and that all frames come from one detector setting';
}

function relabel(lamp: LabelledLamp['lamp'], label: string): LabelledLamp {
  const species = lampSpecies(label) ?? [];
  return {
    lamp: { ...lamp, label },
    known: lampLines.filter((line: LampLine) => species.includes(line.species)),
  };
}

/** With a scale that rests on the other lamps, a lamp with the wrong label shows. */
function refuseWrongLabels(lamps: readonly LabelledLamp[], scale: RoughScale, warnings: Warning[]): void {
  const problems: InputProblem[] = [];
  const toleranceNm = Math.max(0.4, 0.25 * widthNm(lamps, scale));
  for (const { lamp, known } of lamps) {
    const where = 'session.json';
    if (lamp.lines.length === 0) {
      warnings.push({
        where: lamp.where,
        what: `no line of the ${lamp.label} lamp rises above the noise: it was not used`,
      });
      continue;
    }
    const share = explainedShare(scale, lamp.lines, known, toleranceNm);
    const enough = lamp.lines.length >= ENOUGH_TO_TELL;
    const others = knownLamps.filter(
      (label) => !lampSpecies(label)!.every((species) => known.some((k) => k.species === species)),
    );
    const better = others
      .map((label) => ({ label, share: explainedShare(scale, lamp.lines, strongLines(label), toleranceNm) }))
      .sort((p, q) => q.share - p.share)[0];
    const contains =
      better !== undefined && lampSpecies(lamp.label)!.every((s) => lampSpecies(better.label)!.includes(s));
    const wrong =
      enough && better !== undefined && !contains && better.share >= 0.6 && better.share > share + 0.3;
    if (!wrong && (share >= LEAST_EXPLAINED || !enough)) continue;
    const fits = better !== undefined && better.share >= 0.7 ? `; they fit a ${better.label} lamp` : '';
    problems.push({
      where,
      place: lamp.where,
      what: `most lines of the lamp labelled "${lamp.label}" are not those of that lamp${fits}`,
      fix: fits === '' ? 'check the label and the frames' : 'correct the label',
    });
  }
  if (problems.length > 0) throw new BadInputError(problems);
}

function strongLines(label: string): LampLine[] {
  const species = lampSpecies(label) ?? [];
  return lampLines.filter((line) => species.includes(line.species) && !line.weak);
}

function widthNm(lamps: readonly LabelledLamp[], scale: RoughScale): number {
  return (typicalWidthPixels(lamps) * Math.abs(scale.coefficients[1]!)) / scale.pixelScale;
}

function typicalWidthPixels(lamps: readonly LabelledLamp[]): number {
  const widths = lamps.flatMap(({ lamp }) =>
    lamp.lines.filter((line) => line.trouble === null).map((line) => line.fwhmPixels),
  );
  return widths.length === 0 ? 3 : median(widths);
}

function nearestPixel(wavelengthOf: (pixel: number) => number, nm: number, pixels: number): number {
  let low = 0;
  let high = pixels - 1;
  const rising = wavelengthOf(high) > wavelengthOf(low);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (wavelengthOf(middle) > nm === rising) high = middle;
    else low = middle;
  }
  return low;
}

/** Typical width of a line against pixel: the median of the clean lines nearest to it. */
function widthCourse(lamps: readonly LabelledLamp[]): (pixel: number) => number {
  const clean = lamps.flatMap(({ lamp }) => lamp.lines.filter((line) => line.trouble === null));
  clean.sort((a, b) => a.pixel - b.pixel);
  if (clean.length === 0) {
    const width = typicalWidthPixels(lamps);
    return () => width;
  }
  const places = clean.map((line) => line.pixel);
  const widths = clean.map((_, k) => {
    const from = Math.max(0, Math.min(k - 3, clean.length - 7));
    return median(clean.slice(from, from + 7).map((line) => line.fwhmPixels));
  });
  if (places.length === 1) return () => widths[0]!;
  return (pixel) =>
    interpolateLinear(places, widths, Math.min(Math.max(pixel, places[0]!), places[places.length - 1]!));
}

function refuseFewLines(lamps: readonly LabelledLamp[], usable: number): never {
  return refuseLamps(
    lamps,
    `only ${usable} lamp line${usable === 1 ? ' is' : 's are'} clean enough to carry the scale, ${LEAST_LINES} are needed`,
    'add a second lamp or exposures in which the lines are neither clipped nor lost in noise',
  );
}

function refuseLamps(lamps: readonly LabelledLamp[], what: string, fix: string): never {
  const place = lamps.map(({ lamp }) => lamp.where).join(', ');
  throw new BadInputError([
    { where: 'session.json', place, what: `the lamp frames give no wavelength scale: ${what}`, fix },
  ]);
}

function usedAs(line: NamedLine): string {
  return line.blendWidths === null
    ? 'used'
    : `used: ${line.blendWidths.toFixed(1)} widths from a neighbour, fitted together`;
}

function describe(
  named: readonly NamedLine[],
  fit: DispersionFit,
  lineSpread: LineSpread,
  warnings: Warning[],
): Calibration {
  let position = -1;
  const lines = named.map((line): CalibrationLine => {
    const base = {
      lamp: line.lamp,
      species: line.known?.species ?? null,
      wavelengthNm: line.known?.wavelengthNm ?? null,
      pixel: line.found.pixel,
      pixelUncertainty: line.found.pixelUncertainty,
    };
    if (line.trouble !== null) {
      const at = wavelengthAt(fit.dispersion, line.found.pixel);
      const residualNm = line.known === null ? null : at - line.known.wavelengthNm;
      return { ...base, residualNm, used: false, reason: line.trouble };
    }
    position += 1;
    const rejection = fit.rejected.find((entry) => entry.index === position);
    const residualNm = fit.residualsNm[position]!;
    return { ...base, residualNm, used: rejection === undefined, reason: rejection?.reason ?? usedAs(line) };
  });
  const used = lines.filter((line) => line.used).map((line) => line.wavelengthNm!);
  for (const shift of fit.shifts) {
    warnings.push({
      where: shift.lamp,
      what:
        `its lines lie ${shift.shiftPixels.toFixed(3)} ± ${shift.standardUncertaintyPixels.toFixed(3)} pixels off the ` +
        `mean of the lamps; ${fit.couplingNm.toFixed(3)} nm is added to the uncertainty of every wavelength`,
    });
  }
  return {
    dispersion: fit.dispersion,
    lines,
    residualRmsNm: fit.residualRmsNm,
    leaveOneOutRmsNm: fit.leaveOneOutRmsNm,
    leaveOneOutByOrder: fit.leaveOneOutByOrder,
    jitterNm: fit.jitterNm,
    coveredNm: [Math.min(...used), Math.max(...used)],
    lineSpread,
    shifts: fit.shifts,
    couplingNm: fit.couplingNm,
    warnings,
  };
}
