import type { InstrumentScaleReport, LampShift } from '../calibration/index.js';
import type { NoiseModel, RejectedScan, Warning } from '../frames/index.js';
import type { BandMetrics, OutOfBand, Quantity } from '../metrics/index.js';
import type { Claim, Judgement, Verdict } from '../verdict/index.js';

/** What `halfmax measure` writes: see shared/measurement.schema.json. */
export interface Measurement {
  readonly format: 'halfmax-measurement/1';
  readonly title: string;
  readonly recorded: string | null;
  readonly provenance: Provenance;
  readonly frames: { readonly noise: NoiseModel; readonly rejected: readonly RejectedScan[] };
  readonly calibration: CalibrationReport;
  readonly filters: readonly FilterReport[];
  readonly warnings: readonly Warning[];
}

/** What a measurement was made with: the same of all this gives the same bytes. */
export interface Provenance {
  readonly package: string;
  readonly version: string;
  readonly node: string;
  readonly seed: number;
  readonly draws: number;
  readonly inputs: readonly { readonly file: string; readonly sha256: string }[];
}

/** The wavelength scale: sum of coefficients[k] t^k, t = (pixel - pivotPixel) / pixelScale, air, nm. */
export interface CalibrationReport {
  readonly order: number;
  readonly coefficients: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  readonly pivotPixel: number;
  readonly pixelScale: number;
  readonly lines: readonly CalibrationLineReport[];
  readonly residualRmsNm: number;
  readonly leaveOneOutRmsNm: number;
  readonly leaveOneOutByOrder: readonly { readonly order: number; readonly rmsNm: number }[];
  /** Scatter of the lines beyond their own uncertainties. */
  readonly jitterNm: number;
  /** Range of the lines used: beyond it the scale is extrapolated. */
  readonly coveredNm: readonly [number, number];
  readonly rangeNm: readonly [number, number];
  readonly lineSpread: readonly { readonly wavelengthNm: number; readonly fwhmNm: number; readonly uncertaintyNm: number }[];
  readonly lineShape: { readonly boxShare: number; readonly boxRatio: number; readonly skewness: number };
  readonly lampShifts: readonly LampShift[];
  /** Instrument's own wavelength column minus this scale, where frames carry one. */
  readonly instrumentScale: InstrumentScaleReport | null;
}

/** A lamp line: what it was found as and what became of it. */
export interface CalibrationLineReport {
  readonly lamp: string;
  readonly species: string | null;
  readonly wavelengthNm: number | null;
  readonly pixel: number;
  readonly pixelUncertainty: number;
  readonly residualNm: number | null;
  readonly used: boolean;
  readonly reason: string;
}

/** The five numbers of a passband. */
export interface BandNumbers {
  readonly fwhmNm: Quantity;
  readonly centreNm: Quantity;
  readonly peakNm: Quantity;
  readonly peakTransmittance: Quantity;
  /** At the first of the band's target lines. */
  readonly transmittanceAtLine: Quantity;
}

/** Transmittance at an emission line in or near a band. */
export interface LineReport {
  readonly name: string;
  readonly wavelengthNm: number;
  /** Named by the session, or a neighbour that matters. */
  readonly isTarget: boolean;
  readonly transmittance: Quantity;
}

/** A claim held against the measurement. */
export interface ClaimReport {
  readonly quantity: string;
  readonly claim: Claim;
  readonly measured: Quantity | { readonly atLeast: number; readonly why: string };
  readonly verdict: Verdict;
  readonly reason: string;
  readonly probabilityMet: Judgement['probabilityMet'];
  readonly deviation: Judgement['deviation'];
}

/** A passband of a filter. */
export interface BandReport {
  /** The emission lines that the session names and that this band is for. */
  readonly target: readonly string[];
  readonly asMeasured: BandNumbers;
  readonly corrected: BandNumbers;
  readonly lines: readonly LineReport[];
  /** As measured: widths at other levels, edges, other definitions, methods. */
  readonly details: Omit<BandMetrics, 'fwhmNm' | 'centreNm' | 'peakNm' | 'peakTransmittance'>;
  readonly lineSpreadNm: { readonly value: number; readonly standardUncertainty: number };
  /** True where the band lies outside the range of the lamp lines. */
  readonly extrapolated: boolean;
  /** What makes the FWHM uncertain, largest first. */
  readonly budget: readonly { readonly source: string; readonly standardUncertaintyNm: number }[];
  readonly claims: readonly ClaimReport[];
}

/** A filter with its passbands. */
export interface FilterReport {
  readonly id: string;
  readonly label: string;
  readonly curveFile: string | null;
  readonly bands: readonly BandReport[];
  readonly outOfBand: OutOfBand | { readonly absent: string };
  /** Change of the broadband lamp between the open scans, relative. */
  readonly lampDrift: { readonly maxRelative: number; readonly interpolated: boolean } | null;
}

/** A calibrated curve for a table of its own. */
export interface CurveTable {
  readonly filter: string;
  readonly file: string;
  readonly wavelengthNm: Float64Array;
  readonly transmittance: Float64Array;
  /** Everything that makes a single pixel uncertain, drift of the lamp included. */
  readonly standardUncertainty: Float64Array;
}
