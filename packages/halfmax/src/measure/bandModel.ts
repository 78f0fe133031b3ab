import { type Calibration, pixelOf } from '../calibration/index.js';
import { type BandCorrection, bandCurve, bandReadings, shapePrior, type SpreadMatrix } from '../correction/index.js';
import { type BandRange, type Curve, halfCrossingsOf, isAbsent, transmittanceWeights } from '../metrics/index.js';
import type { EmissionLine } from '../reference/index.js';
import type { Distribution, Model, UncertainInput } from '../uncertainty/index.js';
import { type LevelUncertainty, levelInputs } from './levelInputs.js';

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

/** The measurement model of one band, from counts and scale to numbers. */
export interface BandModel {
  readonly model: Model;
  readonly inputs: readonly UncertainInput[];
  /** Names of the outputs, in order. */
  readonly outputs: readonly OutputName[];
}

/** A number of a band: as measured or corrected; `line n` is the transmittance at the n-th line. */
export type OutputName = `${'measured' | 'corrected'} ${'fwhm' | 'centre' | 'peak place' | 'peak' | `line ${number}`}`;

export const NOISE = 'count noise of the filtered, open and dark scans';
export const SCALE = 'wavelength scale';
export const SPREAD = 'line spread';
export const SHAPE = 'shape of the band that the pixels leave open';
export const SECOND_WAY = 'second way of taking the line spread out';

/**
 * The measurement model of a band: every input that is uncertain, and how the band's numbers follow.
 *
 * The fitted shape follows the inputs by one step of the fit, whose numbers are then read from the shape itself.
 *
 * @param input - curve, band, scale, correction, levels
 * @returns model and inputs
 */
export function bandModel(input: BandModelInput): BandModel {
  const part = partOf(input);
  const { curve } = part;
  const n = curve.wavelengthNm.length;
  const correction = 'absent' in input.correction ? null : input.correction;
  const readMeasured = halfCrossingsOf(curve, part.range, { lineSpreadNm: input.lineSpreadNm });
  const lineWeights = input.lines.map((line) =>
    transmittanceWeights(curve, line.wavelengthNm, { lineSpreadNm: input.lineSpreadNm }),
  );
  const shifts = scaleShifts(input.calibration, input.pixels);
  const levels = levelInputs(input.levels, curve.transmittance);
  const shape = correction === null ? null : shapeResponse(correction);
  const misfit = correction === null ? 1 : Math.max(1, correction.fit.misfit);

  const inputs: UncertainInput[] = [
    { source: NOISE, distribution: noiseOf(curve, misfit) },
    ...levels.inputs,
    { source: SCALE, distribution: shifts.distribution },
  ];
  const atLevels = n;
  const atScale = atLevels + levels.inputs.length;
  const atSpread = atScale + shifts.size;
  if (correction !== null && shape !== null) {
    inputs.push(
      { source: SPREAD, distribution: normal(shape.widthUncertainty) },
      { source: SPREAD, distribution: normal(shape.skewnessUncertainty) },
      { source: SHAPE, distribution: noiseLike(shape.priorDeviation) },
      { source: SECOND_WAY, distribution: { kind: 'rectangular', lower: -1, upper: 1 } },
    );
  }
  const atPrior = atSpread + 2;
  const atSecond = atPrior + (shape?.priorDeviation.length ?? 0);

  const outputs = outputNames(input.lines.length, correction !== null);
  const drawn = new Float64Array(n);
  const parameters = correction === null ? new Float64Array(0) : Float64Array.from(correction.fit.parameters);
  const model: Model = (x, out) => {
    for (let i = 0; i < n; i++) drawn[i] = curve.transmittance[i]! * levels.factor(x, atLevels, i) + x[i]!;
    const move = (nm: number): number => shifts.at(nm, x, atScale);
    const found = readMeasured(drawn);
    let k = 0;
    if (isAbsent(found)) {
      k += 4;
    } else {
      out[k++] = found.fwhmNm + move(found.redNm) - move(found.blueNm);
      out[k++] = found.centreNm + move(found.centreNm);
      out[k++] = found.peakNm + move(found.peakNm);
      out[k++] = found.peakTransmittance;
    }
    for (let m = 0; m < lineWeights.length; m++) {
      const weights = lineWeights[m]!;
      if (isAbsent(weights)) {
        k++;
        continue;
      }
      let value = 0;
      let slope = 0;
      for (let i = 0; i < weights.value.length; i++) {
        value += weights.value[i]! * drawn[weights.from + i]!;
        slope += weights.slope[i]! * drawn[weights.from + i]!;
      }
      out[k++] = value - slope * move(input.lines[m]!.wavelengthNm);
    }
    if (correction === null || shape === null) return;
    shape.follow(parameters, x, { atNoise: part.offset, atSpread, atPrior, drawn, measured: curve.transmittance });
    const read = bandReadings(correction.fit.shape, parameters);
    const second = x[atSecond]!;
    out[k++] = read.redNm - read.blueNm + move(read.redNm) - move(read.blueNm) + second * shape.secondWay.fwhmNm;
    const centre = (read.redNm + read.blueNm) / 2;
    out[k++] = centre + move(centre) + second * shape.secondWay.centreNm;
    out[k++] = read.peakNm + move(read.peakNm);
    out[k++] = read.peakTransmittance + second * shape.secondWay.peak;
    const curveDrawn = bandCurve(correction.fit.shape, parameters);
    for (let m = 0; m < input.lines.length; m++) {
      const nm = input.lines[m]!.wavelengthNm;
      out[k++] = curveDrawn(nm - move(nm));
    }
  };
  return { model, inputs, outputs };
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
function partOf({ curve, range, correction }: BandModelInput): { curve: Curve; range: BandRange; offset: number } {
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

function noiseOf(curve: Curve, misfit: number): Distribution {
  return noiseLike(curve.standardUncertainty.map((u) => u * misfit));
}

function noiseLike(standardUncertainty: Float64Array): Distribution {
  return { kind: 'independentNormal', mean: new Float64Array(standardUncertainty.length), standardUncertainty };
}

function normal(standardUncertainty: number): Distribution {
  return { kind: 'normal', mean: 0, standardUncertainty };
}

/** Shifts of the wavelength scale: the coefficients of the dispersion vary together by their covariance. */
function scaleShifts(
  calibration: Calibration,
  pixels: number,
): { distribution: Distribution; size: number; at: (nm: number, x: Float64Array, from: number) => number } {
  const { dispersion } = calibration;
  const size = dispersion.coefficients.length;
  const cache = new Map<number, number>();
  const placeOf = (nm: number): number => {
    // Shifts change slowly: a tenth of a nanometre is near enough to look a place up.
    const key = Math.round(nm * 10);
    let t = cache.get(key);
    if (t === undefined) {
      const pixel = pixelOf(dispersion, nm, pixels) ?? dispersion.pivotPixel;
      t = (pixel - dispersion.pivotPixel) / dispersion.pixelScale;
      cache.set(key, t);
    }
    return t;
  };
  return {
    distribution: { kind: 'multivariateNormal', mean: new Float64Array(size), covariance: dispersion.covariance },
    size,
    at: (nm, x, from) => {
      const t = placeOf(nm);
      let shift = 0;
      for (let k = size - 1; k >= 0; k--) shift = shift * t + x[from + k]!;
      return shift;
    },
  };
}

interface Draw {
  /** First pixel of the fitted data within the stretch. */
  readonly atNoise: number;
  readonly atSpread: number;
  readonly atPrior: number;
  readonly drawn: Float64Array;
  readonly measured: Float64Array;
}

/** How the fitted shape follows pixels, line spread and prior. */
function shapeResponse(correction: BandCorrection): {
  priorDeviation: Float64Array;
  widthUncertainty: number;
  skewnessUncertainty: number;
  secondWay: BandCorrection['secondWay'];
  follow: (parameters: Float64Array, x: Float64Array, draw: Draw) => void;
} {
  const { fit, data } = correction;
  const { response, covariance } = fit;
  const size = fit.parameters.length;
  const prior = shapePrior(fit.shape);
  const held = Array.from(prior.deviation, (deviation, k) => ({ k, deviation })).filter((p) => p.deviation < Infinity);
  const toWidth = answerTo(correction, correction.matrixFor(1 + WIDTH_STEP, correction.skewness), WIDTH_STEP);
  const toSkewness = answerTo(
    correction,
    correction.matrixFor(1, correction.skewness + SKEWNESS_STEP),
    SKEWNESS_STEP,
  );
  const pixels = data.wavelengthNm.length;
  return {
    priorDeviation: Float64Array.from(held, ({ deviation }) => deviation),
    widthUncertainty: correction.widthUncertainty,
    skewnessUncertainty: correction.skewnessUncertainty,
    secondWay: correction.secondWay,
    follow: (parameters, x, { atNoise, atSpread, atPrior, drawn, measured }) => {
      for (let j = 0; j < size; j++) {
        const row = response[j]!;
        let value = fit.parameters[j]! + x[atSpread]! * toWidth[j]! + x[atSpread + 1]! * toSkewness[j]!;
        for (let i = 0; i < pixels; i++) value += row[i]! * (drawn[atNoise + i]! - measured[atNoise + i]!);
        for (let h = 0; h < held.length; h++) {
          const { k, deviation } = held[h]!;
          value += (covariance[j]![k]! / deviation ** 2) * x[atPrior + h]!;
        }
        parameters[j] = value;
      }
    },
  };
}

const WIDTH_STEP = 0.01;
const SKEWNESS_STEP = 0.05;

/** Change of the fitted parameters per unit of a change of the line spread, the pixels staying as they are. */
function answerTo(correction: BandCorrection, changed: SpreadMatrix, step: number): Float64Array {
  const { fit, data } = correction;
  const seen = correction.seenThrough(changed);
  return Float64Array.from(fit.response, (row) => {
    let sum = 0;
    for (let i = 0; i < data.wavelengthNm.length; i++) sum -= (row[i]! * (seen[i]! - fit.seen[i]!)) / step;
    return sum;
  });
}
