import type { Calibration, Dispersion } from '../calibration/index.js';
import type { BandCorrection } from '../correction/index.js';
import type { BandRange, Curve } from '../metrics/index.js';
import type { EmissionLine } from '../reference/index.js';
import type { NoiseParts } from './curveOnScale.js';
import type { LevelUncertainty } from './levelInputs.js';
import { type ShapeResponse, shapeResponse } from './shapeResponse.js';

/** What a band's numbers are made of, for the Monte Carlo. */
export interface BandModelInput {
  /** The whole curve, for the numbers as measured. */
  readonly curve: Curve;
  /** What the noise of the curve is made of, on its pixels. */
  readonly noiseParts: NoiseParts;
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
  readonly noiseParts: NoiseParts;
  readonly range: BandRange;
  readonly lineSpreadNm: number;
  readonly lines: readonly EmissionLine[];
  readonly dispersion: Dispersion;
  /** Part of the scale's uncertainty that comes from how the light of lamps and scans falls in, nm. */
  readonly couplingNm: number;
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
    couplingNm: input.calibration.couplingNm,
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

/** The stretch of the curve that the band's numbers depend on. */
function partOf({ curve, noiseParts, range, correction }: BandModelInput): {
  curve: Curve;
  noiseParts: NoiseParts;
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
    noiseParts: {
      filtered: cut(noiseParts.filtered),
      open: cut(noiseParts.open),
      dark: cut(noiseParts.dark),
    },
    range: {
      ...range,
      fromNm: Math.max(range.fromNm, wavelengthNm[first]!),
      toNm: Math.min(range.toNm, wavelengthNm[end - 1]!),
    },
    offset: inner - first,
  };
}
