/** A transmittance curve: three arrays of one length; a pixel without a number is simply not there. */
export interface Curve {
  /** Air, nm, strictly increasing; the steps may vary. */
  readonly wavelengthNm: Float64Array;
  /** Fraction, 0 to 1 but for noise. */
  readonly transmittance: Float64Array;
  /** Standard uncertainty of each pixel, independent between pixels; 0 where it is not known. */
  readonly standardUncertainty: Float64Array;
}

/** A number that could not honestly be given, and why. */
export interface Absent {
  readonly absent: string;
}

/** A number with its standard uncertainty and 95 % interval. */
export interface Measured {
  readonly value: number;
  readonly standardUncertainty: number;
  readonly interval95: readonly [number, number];
}

/** A number with its uncertainty, or the reason why there is none. */
export type Quantity = Measured | Absent;

/** Where a passband lies, roughly: from single pixels, to be measured by `describeBand`. */
export interface BandRange {
  /** The pixels that belong to the band and its feet: up to the lowest point towards its neighbours or the end of the scan. */
  readonly fromNm: number;
  readonly toNm: number;
  /** Rough crossings of the threshold; the end of the scan where the band is cut. */
  readonly blueNm: number;
  readonly redNm: number;
  readonly peakNm: number;
  readonly peakTransmittance: number;
  /** Which end of the scan cuts the band above the threshold. */
  readonly truncated: 'start' | 'end' | 'both' | null;
}

/** What measuring a band needs to know beside the curve. */
export interface BandOptions {
  /** FWHM of the instrument's line spread at the band, nm; the curve has no structure finer than this. */
  readonly lineSpreadNm?: number;
}
