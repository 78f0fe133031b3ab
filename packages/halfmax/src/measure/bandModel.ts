import { bandReader } from '../correction/index.js';
import { crossingReader, isAbsent, transmittanceWeights } from '../metrics/index.js';
import type { Distribution, Model, UncertainInput } from '../uncertainty/index.js';
import { type BandModelInput, type BandTables, bandTables } from './bandTables.js';
import { levelInputs } from './levelInputs.js';
import { partInputs } from './partInputs.js';
import { scaleShifts } from './scaleShifts.js';
import { shapeFollower } from './shapeResponse.js';

/** The measurement model of one band, from counts and scale to numbers. */
export interface BandModel {
  readonly model: Model;
  /** The same without the numbers as measured where there are corrected ones. */
  readonly stated: Model;
  readonly inputs: readonly UncertainInput[];
  /** The same as `stated`, its inputs parted by source as far as that can be done: what budgets are made of. */
  readonly parted: { readonly model: Model; readonly inputs: readonly UncertainInput[] };
  /** Names of the outputs, in order. */
  readonly outputs: readonly OutputName[];
  /**
   * Writes the corrected band of a draw at wavelengths, scale and level left as they are: those are shared by the whole
   * curve. Null where there is none.
   */
  readonly shape: ((x: Float64Array, wavelengthNm: Float64Array, out: Float64Array) => void) | null;
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

  const parted = (whole: Model): BandModel['parted'] =>
    partInputs(whole, inputs, {
      noise: Object.entries(tables.noiseParts).map(([scans, values]) => ({
        source: `count noise of the ${scans} scans`,
        standardUncertainty: values.slice(first, end).map((u: number) => u * misfit),
      })),
      scale: { at: atScale, dispersion: tables.dispersion, couplingNm: tables.couplingNm },
    });
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
    return {
      model,
      stated: model,
      inputs,
      parted: parted(model),
      outputs: outputNames(lines.length, false),
      shape: null,
    };
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
  const stated: Model = (x, out) => {
    draw(x);
    corrected(x, out);
  };
  const asLevelled = new Float64Array(levels.inputs.length);
  const shape = (x: Float64Array, wavelengthNm: Float64Array, out: Float64Array): void => {
    levels.take(asLevelled, 0);
    levels.fill(drawn, first, end, x);
    followers[kindOf(x[atKind]!)]!(parameters, x, { atSpread, drawn, offset });
    band.take(parameters);
    band.read(read);
    const [peak, blueNm, redNm] = [read[0]!, read[2]!, read[3]!];
    const second = x[atSecond]!;
    const centreNm = (redNm + blueNm) / 2;
    const wider = 1 + (second * secondWay.fwhmNm) / (redNm - blueNm);
    const higher = 1 + (second * secondWay.peak) / peak;
    const place = centreNm + second * secondWay.centreNm;
    for (let i = 0; i < out.length; i++)
      out[i] = higher * band.value(centreNm + (wavelengthNm[i]! - place) / wider);
  };
  return {
    model: (x, out) => {
      draw(x);
      asMeasured(x, out);
      corrected(x, out);
    },
    stated,
    inputs,
    parted: parted(stated),
    outputs: outputNames(lines.length, true),
    shape,
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
