import type { Calibration, Dispersion } from '../calibration/index.js';
import { type BandCorrection, bandReader } from '../correction/index.js';
import {
  type BandRange,
  type Curve,
  crossingReader,
  isAbsent,
  transmittanceWeights,
} from '../metrics/index.js';
import type { EmissionLine } from '../reference/index.js';
import type { Distribution, Model, UncertainInput } from '../uncertainty/index.js';
import { type LevelUncertainty, levelInputs } from './levelInputs.js';
import { scaleShifts } from './scaleShifts.js';
import { type ShapeResponse, shapeFollower, shapeResponse } from './shapeResponse.js';

/** What a band's numbers are made of, for the Monte Carlo. */
export interface BandModelInput {
  /** The whole curve, for the numbers as measured. */
  readonly curve: Curve;
  readonly range: BandRange;
  readonly lineSpreadNm: number;
  readonly lines: readonly EmissionLine[];
  readonly calibration: Calibration;
  readonly pixels: number;
  readonly correction: BandCorrection | { readonly absent: string };
  readonly levels: LevelUncertainty;
}

/** The same as plain data that can be sent to another thread. */
export interface BandTables {
  /** The stretch of the curve around the band. */
  readonly curve: Curve;
  readonly range: BandRange;
  readonly lineSpreadNm: number;
  readonly lines: readonly EmissionLine[];
  readonly dispersion: Dispersion;
  readonly pixels: number;
  readonly levels: LevelUncertainty;
  /** Factor on the noise of the pixels: the fit's misfit where that is above 1. */
  readonly misfit: number;
  /** How each likely shape follows; none where there is no corrected band. */
  readonly shapes: readonly ShapeResponse[];
  /** What the corrected numbers depend on beside the pixels; null where there are none. */
  readonly correction: CorrectionUncertainty | null;
  /** First point of the fitted data within the stretch. */
  readonly offset: number;
}

/** Uncertainties of the correction that are not in the pixels. */
export interface CorrectionUncertainty {
  /** Relative, of the width of the line spread. */
  readonly width: number;
  readonly skewness: number;
  readonly secondWay: BandCorrection['secondWay'];
}

/** The measurement model of one band, from counts and scale to numbers. */
export interface BandModel {
  readonly model: Model;
  /** The same without the numbers as measured where there are corrected ones: what budgets are made of. */
  readonly stated: Model;
  readonly inputs: readonly UncertainInput[];
  /** Names of the outputs, in order. */
  readonly outputs: readonly OutputName[];
}

/** A number of a band: as measured or corrected; `line n` is the transmittance at the n-th line. */
export type OutputName =
  `${'measured' | 'corrected'} ${'fwhm' | 'centre' | 'peak place' | 'peak' | `line ${number}`}`;

export const NOISE = 'count noise of the filtered, open and dark scans';
export const SCALE = 'wavelength scale';
export const SPREAD = 'line spread';
export const SHAPE = 'shape of the band that the pixels leave open';
export const SECOND_WAY = 'second way of taking the line spread out';

/**
 * The measurement model of a band: every input that is uncertain, and how the band's numbers follow.
 *
 * @param input - curve, band, scale, correction, levels
 * @returns model and inputs
 */
export function bandModel(input: BandModelInput): BandModel {
  return modelOfTables(bandTables(input));
}

/**
 * What a band's model is made of, worked out once.
 *
 * @param input - curve, band, scale, correction, levels
 * @returns plain data
 */
export function bandTables(input: BandModelInput): BandTables {
  const correction = 'absent' in input.correction ? null : input.correction;
  const { lineSpreadNm, lines, pixels, levels } = input;
  return {
    ...partOf(input),
    lineSpreadNm,
    lines,
    dispersion: input.calibration.dispersion,
    pixels,
    levels,
    misfit: correction === null ? 1 : Math.max(1, correction.misfit),
    shapes: correction === null ? [] : correction.fits.map((fit) => shapeResponse(correction, fit)),
    correction:
      correction === null
        ? null
        : {
            width: correction.widthUncertainty,
            skewness: correction.skewnessUncertainty,
            secondWay: correction.secondWay,
          },
  };
}

/**
 * A band's model from its tables.
 *
 * The fitted shape follows the inputs by one step of the fit, whose numbers are then read from the shape itself. Only
 * pixels that a number depends on are drawn.
 *
 * @param tables - from bandTables
 * @returns model and inputs
 */
export function modelOfTables(tables: BandTables): BandModel {
  const { curve, range, offset, lineSpreadNm, lines, misfit, shapes, correction } = tables;
  const reader = crossingReader(curve, range, { lineSpreadNm });
  const lineWeights = lines.map((line) => transmittanceWeights(curve, line.wavelengthNm, { lineSpreadNm }));
  const used = [
    { from: reader.firstPixel, end: reader.endPixel },
    ...lineWeights.flatMap((w) => (isAbsent(w) ? [] : [{ from: w.from, end: w.from + w.value.length }])),
    ...shapes.map((shape) => ({ from: offset, end: offset + shape.transmittance.length })),
  ].filter(({ from, end }) => end > from);
  const first = used.length === 0 ? 0 : Math.min(...used.map(({ from }) => from));
  const end = used.length === 0 ? 1 : Math.max(...used.map((one) => one.end));
  const shifts = scaleShifts(tables.dispersion, tables.pixels, curve.wavelengthNm);
  const levels = levelInputs(tables.levels, curve.transmittance);

  const noise = curve.standardUncertainty.slice(first, end).map((u) => u * misfit);
  const inputs: UncertainInput[] = [
    { source: NOISE, distribution: noiseLike(noise) },
    ...levels.inputs,
    { source: SCALE, distribution: shifts.distribution },
  ];
  const atLevels = end - first;
  const atScale = atLevels + levels.inputs.length;
  const atSpread = atScale + shifts.size;
  const [firstShape] = shapes;
  if (correction !== null && firstShape !== undefined) {
    inputs.push(
      { source: SPREAD, distribution: normal(correction.width) },
      { source: SPREAD, distribution: normal(correction.skewness) },
      { source: SPREAD, distribution: standardNormals(firstShape.parameters.length) },
      { source: SHAPE, distribution: standardNormals(firstShape.held) },
      { source: SHAPE, distribution: { kind: 'rectangular', lower: 0, upper: 1 } },
      { source: SECOND_WAY, distribution: { kind: 'rectangular', lower: -1, upper: 1 } },
    );
  }
  const atKind =
    atSpread + 2 + (firstShape === undefined ? 0 : firstShape.parameters.length + firstShape.held);
  const atSecond = atKind + 1;

  const drawn = Float64Array.from(curve.transmittance);
  const draw = (x: Float64Array): void => {
    levels.take(x, atLevels);
    levels.fill(drawn, first, end, x);
  };
  const read = new Float64Array(4);
  const perKind = 4 + lines.length;

  const asMeasured = (x: Float64Array, out: Float64Array): void => {
    if (reader.read(drawn, read)) {
      const [peak, peakNm, blueNm, redNm] = [read[0]!, read[1]!, read[2]!, read[3]!];
      const centreNm = (redNm + blueNm) / 2;
      out[0] = redNm - blueNm + shifts.at(redNm, x, atScale) - shifts.at(blueNm, x, atScale);
      out[1] = centreNm + shifts.at(centreNm, x, atScale);
      out[2] = peakNm + shifts.at(peakNm, x, atScale);
      out[3] = peak;
    }
    for (let m = 0; m < lineWeights.length; m++) {
      const weights = lineWeights[m]!;
      if (isAbsent(weights)) continue;
      let value = 0;
      let slope = 0;
      for (let i = 0; i < weights.value.length; i++) {
        value += weights.value[i]! * drawn[weights.from + i]!;
        slope += weights.slope[i]! * drawn[weights.from + i]!;
      }
      out[4 + m] = value - slope * shifts.at(lines[m]!.wavelengthNm, x, atScale);
    }
  };
  if (correction === null || firstShape === undefined) {
    const model: Model = (x, out) => {
      draw(x);
      asMeasured(x, out);
    };
    return { model, stated: model, inputs, outputs: outputNames(lines.length, false) };
  }

  const band = bandReader(firstShape.shape);
  const followers = shapes.map(shapeFollower);
  const parameters = Float64Array.from(firstShape.parameters);
  const { secondWay } = correction;
  const kindOf = (place: number): number => {
    let kind = 0;
    for (let sum = shapes[0]!.share; kind < shapes.length - 1 && place >= sum; sum += shapes[kind]!.share)
      kind++;
    return kind;
  };
  const corrected = (x: Float64Array, out: Float64Array): void => {
    followers[kindOf(x[atKind]!)]!(parameters, x, { atSpread, drawn, offset });
    band.take(parameters);
    band.read(read);
    const [peak, peakNm, blueNm, redNm] = [read[0]!, read[1]!, read[2]!, read[3]!];
    const second = x[atSecond]!;
    const centreNm = (redNm + blueNm) / 2;
    const width = redNm - blueNm + shifts.at(redNm, x, atScale) - shifts.at(blueNm, x, atScale);
    out[perKind] = width + second * secondWay.fwhmNm;
    out[perKind + 1] = centreNm + shifts.at(centreNm, x, atScale) + second * secondWay.centreNm;
    out[perKind + 2] = peakNm + shifts.at(peakNm, x, atScale);
    out[perKind + 3] = peak + second * secondWay.peak;
    for (let m = 0; m < lines.length; m++) {
      const nm = lines[m]!.wavelengthNm;
      out[perKind + 4 + m] = band.value(nm - shifts.at(nm, x, atScale));
    }
  };
  return {
    model: (x, out) => {
      draw(x);
      asMeasured(x, out);
      corrected(x, out);
    },
    stated: (x, out) => {
      draw(x);
      corrected(x, out);
    },
    inputs,
    outputs: outputNames(lines.length, true),
  };
}

function outputNames(lines: number, corrected: boolean): OutputName[] {
  const kinds = corrected ? (['measured', 'corrected'] as const) : (['measured'] as const);
  return kinds.flatMap((kind): OutputName[] => [
    `${kind} fwhm`,
    `${kind} centre`,
    `${kind} peak place`,
    `${kind} peak`,
    ...Array.from({ length: lines }, (_, m): OutputName => `${kind} line ${m}`),
  ]);
}

/** The stretch of the curve that the band's numbers depend on. */
function partOf({ curve, range, correction }: BandModelInput): {
  curve: Curve;
  range: BandRange;
  offset: number;
} {
  const { wavelengthNm } = curve;
  const width = range.redNm - range.blueNm;
  const centre = (range.redNm + range.blueNm) / 2;
  let first = 0;
  while (first < wavelengthNm.length && wavelengthNm[first]! < centre - 2.2 * width - 2) first++;
  let end = first;
  while (end < wavelengthNm.length && wavelengthNm[end]! < centre + 2.2 * width + 2) end++;
  const inner = 'absent' in correction ? first : correction.first;
  first = Math.min(first, inner);
  end = Math.max(end, 'absent' in correction ? end : correction.first + correction.data.wavelengthNm.length);
  const cut = (values: Float64Array): Float64Array => values.slice(first, end);
  return {
    curve: {
      wavelengthNm: cut(wavelengthNm),
      transmittance: cut(curve.transmittance),
      standardUncertainty: cut(curve.standardUncertainty),
    },
    range: {
      ...range,
      fromNm: Math.max(range.fromNm, wavelengthNm[first]!),
      toNm: Math.min(range.toNm, wavelengthNm[end - 1]!),
    },
    offset: inner - first,
  };
}

function noiseLike(standardUncertainty: Float64Array): Distribution {
  return {
    kind: 'independentNormal',
    mean: new Float64Array(standardUncertainty.length),
    standardUncertainty,
  };
}

function standardNormals(size: number): Distribution {
  return noiseLike(new Float64Array(size).fill(1));
}

function normal(standardUncertainty: number): Distribution {
  return { kind: 'normal', mean: 0, standardUncertainty };
}
