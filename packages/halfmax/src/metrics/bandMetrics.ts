import type { Absent, BandOptions, Quantity } from './types.js';

/** What measuring a band needs to know beside the curve. */
export interface DescribeBandOptions extends BandOptions {
  /** Transmittance below which nothing is known: one number, or one per pixel. */
  readonly floor?: number | ArrayLike<number>;
}

/** One edge of a passband. */
export interface BandEdge {
  /** Way from 10 % to 90 % of the peak, nm. */
  readonly width10To90Nm: Quantity;
  /** Slope where the edge crosses half of the peak, per nm; negative on the red side. */
  readonly slopeAtHalfPerNm: Quantity;
}

/** The same band by other definitions that are in use. */
export interface OtherDefinitions {
  /** Centre of gravity of the area. */
  readonly centroidNm: Quantity;
  /** Place of the maximum of the smoothed curve; on a flat top this says little. */
  readonly peakWavelengthNm: Quantity;
  /** Crossings of a transmittance of 0.5, whatever the peak. */
  readonly absoluteHalf: { readonly centreNm: Quantity; readonly widthNm: Quantity };
  /** Mean between the outermost places above 80 % of the peak. */
  readonly meanTop: Quantity;
  /** The highest single pixel: biased upwards by noise. */
  readonly maximumSample: Quantity;
}

/** The numbers of one passband. */
export interface BandMetrics {
  readonly fwhmNm: Quantity;
  /** Midpoint of the outermost half-peak crossings. */
  readonly centreNm: Quantity;
  readonly peakNm: Quantity;
  readonly peakTransmittance: Quantity;
  /** Full width at 10 % of the peak. */
  readonly width10Nm: Quantity;
  /** Full width at 1 % of the peak. */
  readonly width1Nm: Quantity;
  /** Area under the curve between `area.fromNm` and `area.toNm`, as the width of a band of transmittance 1. */
  readonly equivalentWidthNm: Quantity;
  readonly area: { readonly fromNm: number; readonly toNm: number } | Absent;
  readonly halfCrossingsNm: { readonly blueNm: Quantity; readonly redNm: Quantity };
  readonly edges: { readonly blue: BandEdge; readonly red: BandEdge };
  readonly definitions: OtherDefinitions;
  /** How the numbers were found, one sentence each. */
  readonly method: {
    readonly peak: string;
    readonly crossings: string;
    readonly area: string;
    readonly maximumSample: string;
  };
  /** Single pixels that were left out since they stand alone, nm. */
  readonly leftOutNm: readonly number[];
}
