import type { CalibrationLine, InstrumentScaleReport, LampShift } from '../calibration/index.js';
import type { NoiseModel, RejectedScan, Warning } from '../frames/index.js';
import type { BandMetrics, OutOfBand, Quantity } from '../metrics/index.js';
import type { BenchConditions, FilterEntry } from '../session/benchSession.js';
import type { Claim, DecisionRule, Judgement, Verdict } from '../verdict/index.js';
import type { AbsentHalo, HaloComparisonReport } from './haloComparison.js';
import type { HaloReport } from './haloReport.js';
import type { BeamLineReport, SkyReport } from './usageReports.js';

/** What `halfmax measure` writes: see shared/measurement.schema.json. */
export interface Measurement {
  readonly format: 'halfmax-measurement/1';
  readonly title: string;
  readonly recorded: string | null;
  readonly provenance: Provenance;
  readonly frames: { readonly noise: NoiseModel; readonly rejected: readonly RejectedScan[] };
  readonly calibration: CalibrationReport;
  /** The rule behind every verdict. */
  readonly decision: DecisionReport;
  readonly filters: readonly FilterReport[];
  /** Bright stars through the filters, one for each image. */
  readonly halos: readonly (HaloReport | AbsentHalo)[];
  /** Filters on the same star; one for each star with several images. */
  readonly haloComparisons: readonly HaloComparisonReport[];
  /** Site and beam as the session states them: what `halfmax compare` goes by. */
  readonly conditions: { readonly site?: unknown; readonly beam?: unknown };
  /** The sky that the filters are judged under. */
  readonly usage: UsageReport | { readonly absent: string; readonly assumed: readonly string[] };
  /** Inputs that the session does not state and the frames do not show, with the value taken. */
  readonly assumptions: readonly Assumption[];
  readonly warnings: readonly Warning[];
}

/** The sky of the session's site. */
export interface UsageReport {
  /** Brightness in V, mag/arcsec2. */
  readonly vMagnitude: number;
  readonly parts: readonly { readonly name: string; readonly vMagnitude: number }[];
  /** Of a clear night. */
  readonly nightHours: number;
  /** What the session does not state of site, camera and telescope, with the value taken. */
  readonly assumed: readonly string[];
}

/** How measurements became verdicts. */
export interface DecisionReport {
  readonly rule: DecisionRule;
  /** False where the session states no rule and the default was taken. */
  readonly stated: boolean;
  readonly words: string;
}

/** An input that nobody stated. */
export interface Assumption {
  readonly input: string;
  readonly value: number;
  readonly unit: string;
  readonly source: string;
}

/** What a measurement was made with: the same of all this gives the same bytes. */
export interface Provenance {
  readonly package: string;
  readonly version: string;
  readonly node: string;
  readonly seed: number;
  /** Draws asked for; 0 where each band took as many as it needed (see its monteCarlo). */
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
  readonly lineSpread: readonly {
    readonly wavelengthNm: number;
    readonly fwhmNm: number;
    readonly uncertaintyNm: number;
  }[];
  readonly lineShape: { readonly boxShare: number; readonly boxRatio: number; readonly skewness: number };
  readonly lampShifts: readonly LampShift[];
  /** Instrument's own wavelength column minus this scale, where frames carry one. */
  readonly instrumentScale: InstrumentScaleReport | null;
}

/** A lamp line: what it was found as and what became of it. */
export type CalibrationLineReport = CalibrationLine;

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
  /** As measured. */
  readonly transmittance: Quantity;
  /** Line spread taken out. */
  readonly corrected: Quantity;
}

/** What makes each number uncertain, largest first, in the number's own unit. */
export type QuantityBudgets = Readonly<
  Record<
    'fwhmNm' | 'centreNm' | 'peakTransmittance' | 'transmittanceAtLine',
    readonly { readonly source: string; readonly standardUncertainty: number }[]
  >
>;

/** How the Monte Carlo of a band went, and whether the first-order law would have done for its FWHM. */
export interface MonteCarloReport {
  readonly draws: number;
  readonly stopped: 'adaptive' | 'fixed' | 'limit';
  readonly linearCheck:
    | {
        readonly standardUncertainty: number;
        readonly agrees: boolean;
        readonly lowDistance: number;
        readonly highDistance: number;
        readonly tolerance: number;
      }
    | { readonly absent: string };
}

/** How the line spread was taken out of a band. */
export interface CorrectionReport {
  readonly method: string;
  /** Root mean square of the residuals in units of the noise. */
  readonly misfit: number;
  /** The same band by a way that knows no shape. */
  readonly secondWay: {
    readonly method: string;
    readonly fwhmNm: number;
    readonly peakTransmittance: number;
    readonly rounds: number;
  };
}

/** A claim held against the measurement. */
export interface ClaimReport {
  readonly quantity: string;
  /** Whether the number as measured or the corrected one was judged. */
  readonly basis: 'measured' | 'corrected';
  readonly claim: Claim;
  /** Step of the last digit of a claimed value without a tolerance: its rounding is in the deviation's uncertainty. */
  readonly step: number | null;
  /** With the place where an optical density was lowest. */
  readonly measured: (Quantity | { readonly atLeast: number; readonly why: string }) & {
    readonly atNm?: number;
  };
  readonly verdict: Verdict;
  readonly reason: string;
  readonly probabilityMet: Judgement['probabilityMet'];
  readonly deviation: Judgement['deviation'];
}

/** A number of a band as a sentence to be quoted, and the same as data; numbers rounded as in the text. */
export interface BandQuote {
  readonly text: string;
  readonly quantity: 'fwhmNm' | 'centreNm' | 'peakTransmittance' | 'transmittanceAtLine';
  readonly definition: string;
  readonly basis: 'measured' | 'corrected';
  readonly value: number;
  readonly standardUncertainty: number;
  readonly interval95: readonly [number, number];
  /** Of the instrument at the band: what was taken out, or what was not. */
  readonly lineSpreadNm: number;
  readonly scans: number;
  readonly frames: number;
  readonly draws: number;
  readonly bench: BenchConditions;
}

/** A curve as lists, shortest wavelength first. */
export interface PlainCurve {
  readonly wavelengthNm: readonly number[];
  readonly transmittance: readonly number[];
  readonly standardUncertainty: readonly number[];
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
  readonly correction: CorrectionReport | { readonly absent: string };
  /** The band with the line spread taken out; the uncertainty is that of each point alone. */
  readonly correctedCurve: PlainCurve | { readonly absent: string };
  /** What makes the FWHM (corrected, where it is) uncertain, largest first. */
  readonly budget: readonly { readonly source: string; readonly standardUncertaintyNm: number }[];
  /** The same for every number. */
  readonly budgets: QuantityBudgets;
  readonly monteCarlo: MonteCarloReport;
  readonly claims: readonly ClaimReport[];
  /** Of the width. */
  readonly quote: BandQuote | { readonly absent: string };
  /** Of centre, peak and transmittance at the line, where they have numbers. */
  readonly furtherQuotes: readonly BandQuote[];
}

/** A filter with its passbands. */
export interface FilterReport {
  readonly id: string;
  readonly label: string;
  readonly curveFile: string | null;
  readonly bands: readonly BandReport[];
  readonly outOfBand: OutOfBand | { readonly absent: string };
  /** Its lines in the telescope's light; none where the session states no beam. */
  readonly beam: readonly BeamLineReport[];
  /** What it does under the site's sky. */
  readonly sky: SkyReport | { readonly absent: string };
  readonly price: FilterEntry['price'];
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
