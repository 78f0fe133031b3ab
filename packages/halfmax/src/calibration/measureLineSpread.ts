import { fitPolynomial, median } from '../numeric/index.js';
import { dispersionAt } from './dispersion.js';
import type { CommonShape } from './measureLineShape.js';
import type { NamedLine } from './nameLines.js';
import { singleLines } from './singleLines.js';
import type { Dispersion, LineSpread } from './types.js';

/**
 * Measures the line spread against wavelength from lines that stand alone: its width may change over the detector.
 * The width includes the pixel's own, as that of any scan with the same detector does.
 *
 * @param named - all found lines with their names, located with the common shape
 * @param dispersion - the fitted scale
 * @param common - the common shape
 * @returns the line spread, or why it cannot be had
 */
export function measureLineSpread(
  named: readonly NamedLine[],
  dispersion: Dispersion,
  common: CommonShape,
): LineSpread | { absent: string } {
  const points = singleLines(named)
    .map(({ found, known }) => {
      const nmPerPixel = Math.abs(dispersionAt(dispersion, found.pixel));
      return {
        wavelengthNm: known!.wavelengthNm,
        fwhmNm: found.fwhmPixels * nmPerPixel,
        uncertaintyNm: found.fwhmUncertaintyPixels * nmPerPixel,
      };
    })
    .sort((a, b) => a.wavelengthNm - b.wavelengthNm);
  if (points.length === 0) return { absent: 'no lamp line stands alone and clear of the noise' };
  return {
    ...smoothWidths(points),
    boxShare: common.shape.boxShare,
    boxRatio: common.shape.boxRatio,
    widthShareUncertainty: common.widthShareUncertainty,
    skewness: common.shape.skewness,
    residual: common.shape.residual,
    skewnessUncertainty: common.skewnessUncertainty,
  };
}

/**
 * Line spread at a wavelength.
 *
 * @param spread - the measured line spread
 * @param wavelengthNm - air wavelength
 * @returns FWHM and its standard uncertainty in nm
 */
export function lineSpreadAt(
  spread: LineSpread,
  wavelengthNm: number,
): { fwhmNm: number; uncertaintyNm: number } {
  const s = (wavelengthNm - spread.pivotNm) / spread.scaleNm;
  const row = Array.from(spread.coefficients, (_, k) => s ** k);
  let fwhmNm = 0;
  let variance = 0;
  for (let j = 0; j < row.length; j++) {
    fwhmNm += spread.coefficients[j]! * row[j]!;
    for (let k = 0; k < row.length; k++) variance += row[j]! * spread.covariance[j]![k]! * row[k]!;
  }
  const shapeNm = spread.widthShareUncertainty * fwhmNm;
  return { fwhmNm, uncertaintyNm: Math.sqrt(Math.max(0, variance) + shapeNm ** 2) };
}

/** A constant, straight or bent course of the width, whichever leave-one-out prefers; lines far off are dropped. */
function smoothWidths(points: readonly WidthPoint[]): Course {
  let kept = [...points];
  for (let round = 0; round < 3; round++) {
    const { residuals } = fitCourse(kept);
    const offsets = Array.from(residuals, Math.abs);
    const limit = 4 * 1.4826 * median(offsets) + 0.01;
    const next = kept.filter((_, k) => offsets[k]! <= limit);
    if (next.length === kept.length || next.length < 4) break;
    kept = next;
  }
  return fitCourse(kept).course;
}

interface WidthPoint {
  readonly wavelengthNm: number;
  readonly fwhmNm: number;
  readonly uncertaintyNm: number;
}

type Course = Omit<
  LineSpread,
  'boxShare' | 'boxRatio' | 'widthShareUncertainty' | 'skewness' | 'residual' | 'skewnessUncertainty'
>;

function fitCourse(points: readonly WidthPoint[]): { course: Course; residuals: Float64Array } {
  const x = points.map((point) => point.wavelengthNm);
  const y = points.map((point) => point.fwhmNm);
  const typical = median(points.map((point) => point.uncertaintyNm));
  // One per cent of scatter from line to line keeps one bright line from carrying the whole course.
  const weights = points.map(
    (point) => 1 / (point.uncertaintyNm ** 2 + typical ** 2 + (0.01 * point.fwhmNm) ** 2),
  );
  const pivot = (Math.min(...x) + Math.max(...x)) / 2;
  const scale = Math.max(1, (Math.max(...x) - Math.min(...x)) / 2);
  const fits = [0, 1, 2]
    .filter((degree) => points.length >= 2 * degree + 1)
    .map((degree) => fitPolynomial(x, y, degree, { weights, pivot, scale }));
  const leftOut = fits.map((fit) => {
    let sum = 0;
    for (let i = 0; i < x.length; i++) {
      sum += weights[i]! * (fit.residuals[i]! / Math.max(1e-6, 1 - fit.leverage[i]!)) ** 2;
    }
    return sum;
  });
  const fit = fits[points.length === 1 ? 0 : leftOut.indexOf(Math.min(...leftOut))]!;
  const misfit = points.length > fit.coefficients.length ? Math.max(1, fit.residualStandardDeviation) : 1;
  // A width from a single line is known no better than lines usually agree: five per cent.
  const alone = points.length === 1 ? (0.05 * y[0]!) ** 2 : 0;
  const covariance = fit.covariance.map((row, j) =>
    row.map((value, k) => value * misfit ** 2 + (j + k === 0 ? alone : 0)),
  );
  const squares = fit.residuals.reduce((sum, residual) => sum + residual * residual, 0);
  const scatterNm = Math.sqrt(squares / Math.max(1, points.length - fit.coefficients.length));
  return {
    course: {
      coefficients: fit.coefficients,
      covariance,
      pivotNm: pivot,
      scaleNm: scale,
      scatterNm,
      linesNm: x,
    },
    residuals: fit.residuals,
  };
}
