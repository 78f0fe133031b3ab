/** A lamp's frames joined: counts per ms by pixel. */
export interface LampSpectrum {
  /** Lamp label as the session gives it, such as `Hg-Ar`. */
  readonly label: string;
  /** Where it came from, for messages: `frames[3]` or file names. */
  readonly where: string;
  readonly countsPerMs: Float64Array;
  /** Standard uncertainty per pixel, counts per ms. */
  readonly standardUncertainty: Float64Array;
  /** 1 where no exposure gave an unclipped value. */
  readonly masked: Uint8Array;
}

/** A line found in a lamp spectrum; pixels count from 0, pixel i reaches from i - 0.5 to i + 0.5. */
export interface FoundLine {
  readonly pixel: number;
  readonly pixelUncertainty: number;
  /** Height above the local baseline, counts per ms. */
  readonly height: number;
  /** Height over its standard uncertainty. */
  readonly significance: number;
  readonly fwhmPixels: number;
  readonly fwhmUncertaintyPixels: number;
  /** Third cumulant over the cube of the standard deviation: 0 for a symmetric line, positive towards higher pixels. */
  readonly skewness: number;
  readonly skewnessUncertainty: number;
  /** Distance to the next line found, pixels; Infinity where it stands alone. */
  readonly nearestPixels: number;
  /** Why it must not carry the scale, or null. */
  readonly trouble: string | null;
}

/** The lines of one lamp. */
export interface LampLines {
  readonly label: string;
  readonly where: string;
  readonly lines: readonly FoundLine[];
}

/** A line of a lamp with its name and what became of it. */
export interface CalibrationLine {
  readonly lamp: string;
  /** Species as in the lamp-line table, or null where the line is not in it. */
  readonly species: string | null;
  /** Air wavelength from the table, or null. */
  readonly wavelengthNm: number | null;
  readonly pixel: number;
  readonly pixelUncertainty: number;
  /** Wavelength by the fit minus the table's. */
  readonly residualNm: number | null;
  readonly used: boolean;
  /** Why it was not used, or how it was. */
  readonly reason: string;
}

/** Wavelength in air against pixel: sum of coefficients[k] t^k with t = (pixel - pivotPixel) / pixelScale. */
export interface Dispersion {
  readonly order: number;
  /** At least order + 2 numbers, nm; those above the order are 0 and stand for what the lines cannot exclude. */
  readonly coefficients: Float64Array;
  /** Covariance of all of them, nm^2. */
  readonly covariance: readonly Float64Array[];
  readonly pivotPixel: number;
  readonly pixelScale: number;
}

/** FWHM of the line spread as a polynomial in wavelength, with its covariance. */
export interface LineSpread {
  /** FWHM in nm = sum of coefficients[k] s^k with s = (wavelength - pivotNm) / scaleNm. */
  readonly coefficients: Float64Array;
  readonly covariance: readonly Float64Array[];
  readonly pivotNm: number;
  readonly scaleNm: number;
  /** Scatter of single lines about it, nm. */
  readonly scatterNm: number;
  /** Shape: see lineShape. */
  readonly boxShare: number;
  readonly boxRatio: number;
  /** Relative uncertainty of every width from the choice of the shape. */
  readonly widthShareUncertainty: number;
  /** Skewness of the profile, towards higher pixels. */
  readonly skewness: number;
  readonly skewnessUncertainty: number;
  /** What the lines show beyond box, blur and skewness; see lineShape. */
  readonly residual: Float64Array;
  /** Wavelengths of the clean lines it rests on. */
  readonly linesNm: readonly number[];
}

/** A shift of one lamp's lines against the common scale. */
export interface LampShift {
  readonly lamp: string;
  readonly shiftPixels: number;
  readonly standardUncertaintyPixels: number;
}
