import {
  type Calibration,
  dispersionAt,
  type LineShape,
  lineShape,
  lineSpreadAt,
} from '../calibration/index.js';
import type { BandRange, Curve } from '../metrics/index.js';
import { fitPolynomial } from '../numeric/index.js';
import { type BandReadings, bandReadings } from './bandReadings.js';
import { bandCurve } from './bandShape.js';
import { deconvolve, type SharpenedBand } from './deconvolve.js';
import type { BandData, BandFit } from './fitBand.js';
import { fitTops, type LikelyFit } from './fitTops.js';
import { applySpread, type PixelSpread, type SpreadMatrix, spreadMatrix } from './spreadMatrix.js';

/** A band with the line spread taken out. */
export interface BandCorrection {
  readonly data: BandData;
  /** Likely fits, from an even top to an uneven one. */
  readonly fits: readonly LikelyFit[];
  /** Least misfit of the fits. */
  readonly misfit: number;
  readonly readings: BandReadings;
  /** First pixel of the curve that belongs to the data. */
  readonly first: number;
  /** Makes the weights again for a line spread of another width or skewness. */
  readonly matrixFor: (widthFactor: number, skewness: number) => SpreadMatrix;
  /** A fitted shape as the pixels would see it through other weights. */
  readonly seenThrough: (fit: BandFit, matrix: SpreadMatrix) => Float64Array;
  readonly skewness: number;
  /** Relative standard uncertainty of the line spread's width, and standard uncertainty of its skewness. */
  readonly widthUncertainty: number;
  readonly skewnessUncertainty: number;
  /** Standard uncertainty of each pixel from the shape of the line spread. */
  readonly spreadNoise: Float64Array;
  /** Half widths that the difference to the model-free way adds. */
  readonly secondWay: { readonly fwhmNm: number; readonly centreNm: number; readonly peak: number };
  readonly sharpened: SharpenedBand;
}

/** What the curve alone says of the band. */
export interface MeasuredBand {
  readonly centreNm: number;
  readonly fwhmNm: number;
  readonly peakTransmittance: number;
}

/** Pixels are used up to this many widths from the centre, and at least so many line spreads beyond the half points. */
const REACH_WIDTHS = 1.4;
const REACH_SPREADS = 2.2;
/** A line spread wider than this share of the band as measured hides the band's own width. */
const WIDEST_SHARE = 0.85;
/** Root mean square of the residuals, in units of the noise, beyond which the shape is not believed. */
const WORST_MISFIT = 4;
/**
 * Uncertainty of what a pixel sees, over slope times standard deviation of the line spread, from the shape of the line
 * spread: lines of one lamp agree in shape to about this. Own simulation.
 */
const SHAPE_SHARE = 0.0035;

/**
 * Takes the instrument's line spread out of a passband.
 *
 * @param curve - the curve as measured
 * @param openCounts - light of the lamp at the same points, any unit
 * @param range - the band, from findBands
 * @param measured - the band's numbers as measured
 * @param calibration - scale and line spread
 * @returns the corrected band, or why it cannot be had
 */
export function correctBand(
  curve: Curve,
  openCounts: Float64Array,
  range: BandRange,
  measured: MeasuredBand,
  calibration: Calibration,
): BandCorrection | { readonly absent: string } {
  const { lineSpread } = calibration;
  const { fwhmNm: spreadNm } = lineSpreadAt(lineSpread, measured.centreNm);
  if (spreadNm > WIDEST_SHARE * measured.fwhmNm) {
    return {
      absent:
        `the line spread, ${spreadNm.toFixed(2)} nm, is nearly as wide as the band looks: its FWHM lies between 0 and ` +
        `${measured.fwhmNm.toFixed(2)} nm`,
    };
  }
  const reach = Math.max(REACH_WIDTHS * measured.fwhmNm, measured.fwhmNm / 2 + REACH_SPREADS * spreadNm);
  const from = Math.max(range.fromNm, measured.centreNm - reach);
  const to = Math.min(range.toNm, measured.centreNm + reach);
  let first = 0;
  while (first < curve.wavelengthNm.length && curve.wavelengthNm[first]! < from) first++;
  let end = first;
  while (end < curve.wavelengthNm.length && curve.wavelengthNm[end]! <= to) end++;
  if (end - first < 14)
    return { absent: `only ${end - first} pixels show the band and its feet: too few for a shape` };
  const wavelengthNm = curve.wavelengthNm.slice(first, end);
  const floor = 1e-4 * measured.peakTransmittance;
  const { dispersion } = calibration;
  const direction = dispersionAt(dispersion, dispersion.pivotPixel) > 0 ? 1 : -1;
  const slopes = lampSlopes(wavelengthNm, openCounts.slice(first, end));
  const matrixFor = (widthFactor: number, skewness: number): SpreadMatrix => {
    const shape: LineShape = lineShape(
      lineSpread.boxShare,
      lineSpread.boxRatio,
      skewness,
      lineSpread.residual,
    );
    const spreads = Array.from(wavelengthNm, (nm, i): PixelSpread => {
      const { fwhmNm } = lineSpreadAt(lineSpread, nm);
      return { sigmaNm: (widthFactor * fwhmNm) / shape.fwhm, lampSlopePerNm: slopes(wavelengthNm[i]!) };
    });
    return spreadMatrix(wavelengthNm, spreads, shape, direction);
  };
  // The shape of the line spread is known from a few lines: what it may be off by shows where the curve is steep.
  const spreadNoise = steepness(wavelengthNm, curve.transmittance.slice(first, end)).map(
    (slope) => (SHAPE_SHARE * Math.abs(slope) * spreadNm) / 2.355,
  );
  const data: BandData = {
    wavelengthNm,
    transmittance: curve.transmittance.slice(first, end),
    standardUncertainty: curve.standardUncertainty
      .slice(first, end)
      .map((u, i) => Math.hypot(Math.max(u, floor), spreadNoise[i]!)),
    matrix: matrixFor(1, lineSpread.skewness),
    ...measured,
    lineSpreadNm: spreadNm,
  };
  const fits = fitTops(data);
  const misfit = Math.min(...fits.map((fit) => fit.misfit));
  if (!(misfit < WORST_MISFIT)) {
    return {
      absent: `no band shape fits the pixels through the line spread (misfit ${misfit.toFixed(1)})`,
    };
  }
  const readings = meanReadings(fits);
  const sharpened = deconvolve(data);
  const { uncertaintyNm } = lineSpreadAt(lineSpread, measured.centreNm);
  return {
    data,
    fits,
    misfit,
    readings,
    first,
    matrixFor,
    seenThrough: (fit, matrix) => {
      const out = new Float64Array(wavelengthNm.length);
      applySpread(matrix, matrix.gridNm.map(bandCurve(fit.shape, fit.parameters)), out);
      return out;
    },
    skewness: lineSpread.skewness,
    widthUncertainty: uncertaintyNm / spreadNm,
    skewnessUncertainty: lineSpread.skewnessUncertainty,
    spreadNoise,
    secondWay: halfDifferences(readings, sharpened),
    sharpened,
  };
}

/** Readings of the fits, each as much as it is likely. */
function meanReadings(fits: readonly LikelyFit[]): BandReadings {
  const all = fits.map((fit) => ({ share: fit.share, ...bandReadings(fit.shape, fit.parameters) }));
  const mean = (pick: (one: BandReadings) => number): number =>
    all.reduce((sum, one) => sum + one.share * pick(one), 0);
  return {
    peakNm: mean((one) => one.peakNm),
    peakTransmittance: mean((one) => one.peakTransmittance),
    blueNm: mean((one) => one.blueNm),
    redNm: mean((one) => one.redNm),
  };
}

/**
 * Half of how far the two ways lie apart: the band may lie anywhere between them. Where the iteration could not reach
 * the noise it is no check and adds nothing.
 */
function halfDifferences(fitted: BandReadings, sharpened: SharpenedBand): BandCorrection['secondWay'] {
  const other = sharpened.readings;
  if (sharpened.misfit > 1) return { fwhmNm: 0, centreNm: 0, peak: 0 };
  const width = fitted.redNm - fitted.blueNm - (other.redNm - other.blueNm);
  const place = (fitted.redNm + fitted.blueNm - other.redNm - other.blueNm) / 2;
  const peak = fitted.peakTransmittance - other.peakTransmittance;
  return { fwhmNm: Math.abs(width) / 2, centreNm: Math.abs(place) / 2, peak: Math.abs(peak) / 2 };
}

/** Slope of the curve per nm, over five pixels. */
function steepness(wavelengthNm: Float64Array, transmittance: Float64Array): Float64Array {
  const n = wavelengthNm.length;
  return wavelengthNm.map((_, i) => {
    const from = Math.max(0, i - 2);
    const to = Math.min(n - 1, i + 2);
    return (transmittance[to]! - transmittance[from]!) / (wavelengthNm[to]! - wavelengthNm[from]!);
  });
}

/** Relative slope of the lamp over the band, from a parabola through its counts. */
function lampSlopes(wavelengthNm: Float64Array, openCounts: Float64Array): (nm: number) => number {
  const fit = fitPolynomial(wavelengthNm, openCounts, 2);
  const [c0, c1, c2] = fit.coefficients as unknown as [number, number, number];
  return (nm) => {
    const t = (nm - fit.pivot) / fit.scale;
    const level = c0 + t * (c1 + t * c2);
    return level > 0 ? (c1 + 2 * c2 * t) / fit.scale / level : 0;
  };
}
