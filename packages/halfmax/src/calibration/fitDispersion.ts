import { studentQuantile } from '../numeric/index.js';
import { type DispersionFit, describeDispersion } from './describeDispersion.js';
import { designRow, leaveOneOutRms, type ScalePoint, type Solution } from './dispersionSolution.js';
import { fitHeldPolynomial, type HeldFit } from './heldPolynomial.js';

/** Another order replaces the cubic where its leave-one-out error is below this share of the cubic's. */
const HIGHER_ORDER_GAIN = 0.8;
const LOWER_ORDER_GAIN = 0.95;
/** A shift between lamps is taken as real beyond this many standard uncertainties. */
const SHIFT_SIGNIFICANCE = 3;
/** Chance, over all lines together, of rejecting one that belongs. */
const REJECTION_RISK = 0.02;
/** Scatter that no line list of a bench instrument falls below, nm: keeps weights finite. */
const LEAST_JITTER_NM = 1e-4;
/**
 * Fits wavelength against pixel by weighted least squares about the middle of the detector.
 *
 * The order is the cubic unless leave-one-out says otherwise; outliers are rejected one at a time by their
 * studentised residual; scatter beyond the lines' own uncertainty is found from the residuals (Mandel and Paule's
 * condition: weighted squares equal the degrees of freedom) and shared by all lines. Lamps that disagree get a shift
 * each, and the disagreement enters the covariance of the constant term as a rectangular distribution.
 *
 * @param points - at least 3 lines
 * @param pixels - length of the detector
 * @returns the fit
 * @throws {RangeError} fewer than 3 points
 * Source: JCGM 100:2008 H.3 (fitted scale with covariance); J. Mandel, R. Paule, Anal. Chem. 42, 1194 (1970).
 */
export function fitDispersion(points: readonly ScalePoint[], pixels: number): DispersionFit {
  if (points.length < 3)
    throw new RangeError(`fitDispersion requires at least 3 points, got ${points.length}`);
  const middle = (pixels - 1) / 2;
  const kept = points.map((_, index) => index);
  const rejected: { index: number; reason: string }[] = [];
  let current = solve(points, kept, middle);
  while (kept.length > 6 && rejected.length < points.length / 3) {
    const worst = worstOutlier(current);
    if (worst === null) break;
    rejected.push({ index: kept[worst.position]!, reason: worst.reason });
    kept.splice(worst.position, 1);
    current = solve(points, kept, middle);
  }
  return describeDispersion(points, kept, rejected, current, middle);
}

function solve(points: readonly ScalePoint[], kept: readonly number[], middle: number): Solution {
  const used = kept.map((index) => points[index]!);
  const lamps = lampsWithEnough(used);
  const affordable = (order: number): boolean =>
    order <= 3 ? used.length >= order + 1 : used.length >= order + 6;
  const start = Math.max(1, [3, 2, 1].find(affordable) ?? 1);
  const shifts = lamps.length > 1 && used.length >= start + lamps.length + 3;
  const trials = [1, 2, 3, 4, 5].filter((order) => order === start || (order >= 2 && affordable(order)));
  const solutions = trials.map((order) => ({
    order,
    ...fitWithJitter(used, order, shifts ? lamps : [], middle),
  }));
  const orders = solutions.map((solution) => ({
    order: solution.order,
    rmsNm: leaveOneOutRms(solution.fit),
  }));
  const base = orders.find((entry) => entry.order === start)!;
  let chosen = base;
  for (const entry of orders) {
    const gain = entry.order > start ? HIGHER_ORDER_GAIN : LOWER_ORDER_GAIN;
    if (entry.order !== start && entry.rmsNm < gain * base.rmsNm && entry.rmsNm < chosen.rmsNm)
      chosen = entry;
  }
  const best = solutions.find((solution) => solution.order === chosen.order)!;
  if (shifts && !shiftIsReal(best.fit, best.order)) {
    const plain = fitWithJitter(used, best.order, [], middle);
    return { order: best.order, shifted: false, ...plain, orders, lamps };
  }
  const { fit, jitterNm } = best;
  return { order: best.order, shifted: shifts, fit, jitterNm, orders, lamps };
}

/** Lamps with at least three lines, in the order of their first line. */
function lampsWithEnough(points: readonly ScalePoint[]): string[] {
  const labels = [...new Set(points.map((point) => point.lamp))];
  return labels.filter((label) => points.filter((point) => point.lamp === label).length >= 3);
}

function fitWithJitter(
  points: readonly ScalePoint[],
  order: number,
  lamps: readonly string[],
  middle: number,
): { fit: HeldFit; jitterNm: number } {
  const design = points.map((point) => designRow(point, order, lamps, middle));
  const first = points[0]!;
  const last = points[points.length - 1]!;
  const span = ((last.wavelengthNm - first.wavelengthNm) * middle) / (last.pixel - first.pixel);
  const wavelengths = points.map((point) => point.wavelengthNm);
  const own = points.map((point) => ((point.pixelUncertainty * span) / middle) ** 2);
  const fitWith = (jitter: number): HeldFit => {
    const weights = Float64Array.from(own, (variance) => 1 / (variance + jitter ** 2));
    return fitHeldPolynomial(design, order, wavelengths, weights, Math.abs(span));
  };
  const excess = (fit: HeldFit): boolean => fit.weightedSumOfSquares > fit.degreesOfFreedom;
  let low = LEAST_JITTER_NM;
  const least = fitWith(low);
  if (!excess(least)) return { fit: least, jitterNm: low };
  let high = 4 * Math.max(low, ...least.residuals.map(Math.abs));
  for (let step = 0; step < 14; step++) {
    const jitter = Math.sqrt(low * high);
    if (excess(fitWith(jitter))) low = jitter;
    else high = jitter;
  }
  const jitterNm = Math.sqrt(low * high);
  return { fit: fitWith(jitterNm), jitterNm };
}

function shiftIsReal(fit: HeldFit, order: number): boolean {
  for (let k = order + 1; k < fit.coefficients.length; k++) {
    if (Math.abs(fit.coefficients[k]!) > SHIFT_SIGNIFICANCE * Math.sqrt(fit.covariance[k]![k]!)) return true;
  }
  return false;
}

/** The line whose externally studentised residual is the largest, if chance does not explain it. */
function worstOutlier(solution: Solution): { position: number; reason: string } | null {
  const { fit } = solution;
  const dof = fit.degreesOfFreedom;
  if (dof < 3) return null;
  // Where the lines' own uncertainties explain the scatter, they are the measure; else the scatter of the others is.
  const floor = solution.jitterNm > LEAST_JITTER_NM ? 1e-12 : 1;
  const n = fit.residuals.length;
  const limit = studentQuantile(1 - REJECTION_RISK / (2 * n), dof - 1);
  let worst: { position: number; studentised: number } | null = null;
  for (let i = 0; i < n; i++) {
    const free = 1 - fit.leverage[i]!;
    if (free < 1e-6) continue;
    const weighted = fit.residuals[i]! ** 2 * fit.weights[i]!;
    const without = (fit.weightedSumOfSquares - weighted / free) / (dof - 1);
    const studentised = Math.sqrt(weighted / free / Math.max(without, floor));
    if (studentised > limit && studentised > (worst?.studentised ?? 0)) worst = { position: i, studentised };
  }
  if (worst === null) return null;
  const residual = -fit.residuals[worst.position]!;
  return {
    position: worst.position,
    reason:
      `outlier: ${residual.toFixed(3)} nm off the fit, ${worst.studentised.toFixed(1)} times its standard deviation ` +
      `(limit ${limit.toFixed(1)})`,
  };
}
