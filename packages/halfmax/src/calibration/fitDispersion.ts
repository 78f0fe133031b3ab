import { studentQuantile } from '../numeric/index.js';
import { fitHeldPolynomial, type HeldFit } from './heldPolynomial.js';
import type { Dispersion, LampShift } from './types.js';

/** A line that may carry the scale. */
export interface ScalePoint {
  readonly lamp: string;
  readonly pixel: number;
  readonly pixelUncertainty: number;
  readonly wavelengthNm: number;
}

/** The fitted scale and how well it holds. */
export interface DispersionFit {
  readonly dispersion: Dispersion;
  /** Wavelength by the fit minus the table's, nm, one per point given (rejected ones too). */
  readonly residualsNm: Float64Array;
  /** Share of each point given in its own fitted value, 0 for rejected ones. */
  readonly leverage: Float64Array;
  /** Rejected points: position in the list given, and why. */
  readonly rejected: readonly { readonly index: number; readonly reason: string }[];
  readonly residualRmsNm: number;
  readonly leaveOneOutRmsNm: number;
  /** Leave-one-out rms of every order that was tried. */
  readonly leaveOneOutByOrder: readonly { readonly order: number; readonly rmsNm: number }[];
  /** Scatter beyond the lines' own uncertainties, nm. */
  readonly jitterNm: number;
  /** Shift of each lamp against the mean of the lamps; empty for one lamp. */
  readonly shifts: readonly LampShift[];
  /** What the coupling of the light adds to the uncertainty of any wavelength, nm: from the lamps' shifts, or the least. */
  readonly couplingNm: number;
}

/** Another order replaces the cubic where its leave-one-out error is below this share of the cubic's. */
const HIGHER_ORDER_GAIN = 0.8;
const LOWER_ORDER_GAIN = 0.95;
/** A shift between lamps is taken as real beyond this many standard uncertainties. */
const SHIFT_SIGNIFICANCE = 3;
/** Chance, over all lines together, of rejecting one that belongs. */
const REJECTION_RISK = 0.02;
/** Scatter that no line list of a bench instrument falls below, nm: keeps weights finite. */
const LEAST_JITTER_NM = 1e-4;
/** The covariance allows for orders up to this one at least. */
const WIDEST_ORDER = 5;
/**
 * Standard uncertainty, in pixels, of where broadband light falls against a lamp's light, where two lamps do not show
 * more: lamps fill a fibre differently. Common practice, no source.
 */
export const COUPLING_PIXELS: number = 0.03;
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
  return describe(points, kept, rejected, current, middle);
}

interface Solution {
  readonly order: number;
  readonly shifted: boolean;
  readonly fit: HeldFit;
  readonly jitterNm: number;
  readonly orders: readonly { order: number; rmsNm: number }[];
  readonly lamps: readonly string[];
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

function designRow(point: ScalePoint, order: number, lamps: readonly string[], middle: number): number[] {
  const t = (point.pixel - middle) / middle;
  const row = Array.from({ length: order + 1 }, (_, k) => t ** k);
  // Shifts in nm that sum to zero over the lamps: the first lamp carries minus the sum of the others.
  for (const lamp of lamps.slice(1)) row.push(point.lamp === lamp ? 1 : point.lamp === lamps[0] ? -1 : 0);
  return row;
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

function leaveOneOutRms(fit: HeldFit): number {
  let sum = 0;
  for (let i = 0; i < fit.residuals.length; i++)
    sum += (fit.residuals[i]! / Math.max(1e-9, 1 - fit.leverage[i]!)) ** 2;
  return Math.sqrt(sum / fit.residuals.length);
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

function describe(
  points: readonly ScalePoint[],
  kept: readonly number[],
  rejected: readonly { index: number; reason: string }[],
  solution: Solution,
  middle: number,
): DispersionFit {
  const { fit, order, lamps, jitterNm } = solution;
  const coefficients = fit.coefficients.slice(0, order + 1);
  const widest = Math.max(WIDEST_ORDER, order + 1);
  const shifts = solution.shifted ? lampShifts(fit, order, lamps, middle) : [];
  const shiftsNm = shifts.map((shift) => Math.abs(shift.shiftPixels) * (Math.abs(coefficients[1]!) / middle));
  // The broadband light may lie as far from the lamps' mean as they lie from each other: a rectangular distribution.
  const apart = shiftsNm.length === 0 ? 0 : 2 * Math.max(...shiftsNm);
  const nmPerPixel = Math.abs(coefficients[1]!) / middle;
  const couplingNm = Math.max(apart / Math.sqrt(3), COUPLING_PIXELS * nmPerPixel);
  const dispersion: Dispersion = {
    order,
    coefficients: Float64Array.from({ length: widest + 1 }, (_, k) => coefficients[k] ?? 0),
    covariance: addUnseenOrders(points, kept, solution, widest, middle),
    pivotPixel: middle,
    pixelScale: middle,
  };
  dispersion.covariance[0]![0] = dispersion.covariance[0]![0]! + couplingNm ** 2;
  const residualsNm = Float64Array.from(points, (point) => {
    const t = (point.pixel - middle) / middle;
    let value = 0;
    for (let k = order; k >= 0; k--) value = value * t + coefficients[k]!;
    const shift = shifts.find((entry) => entry.lamp === point.lamp);
    const moved = shift === undefined ? 0 : (-shift.shiftPixels * coefficients[1]!) / middle;
    return value + moved - point.wavelengthNm;
  });
  const square = kept.reduce((sum, index) => sum + residualsNm[index]! ** 2, 0);
  return {
    dispersion,
    residualsNm,
    leverage: Float64Array.from(points, (_, index) => fit.leverage[kept.indexOf(index)] ?? 0),
    rejected,
    residualRmsNm: Math.sqrt(square / kept.length),
    leaveOneOutRmsNm: leaveOneOutRms(fit),
    leaveOneOutByOrder: solution.orders,
    jitterNm,
    shifts,
    couplingNm,
  };
}

/**
 * Covariance of the coefficients with the orders that were not fitted: the lines cannot exclude them, and between and
 * beyond the lines they bend the scale. A fit of the widest order, held by what a grating can do, has the covariance;
 * how far the chosen fit lies from it is added.
 */
function addUnseenOrders(
  points: readonly ScalePoint[],
  kept: readonly number[],
  solution: Solution,
  widest: number,
  middle: number,
): Float64Array[] {
  const used = kept.map((index) => points[index]!);
  const lamps = solution.shifted ? solution.lamps : [];
  const { coefficients, weights } = solution.fit;
  const held = fitHeldPolynomial(
    used.map((point) => designRow(point, widest, lamps, middle)),
    widest,
    used.map((point) => point.wavelengthNm),
    weights,
    Math.abs(coefficients[1]!),
  );
  const chosen = (k: number): number => (k <= solution.order ? coefficients[k]! : 0);
  const away = Array.from({ length: widest + 1 }, (_, k) => held.coefficients[k]! - chosen(k));
  return away.map((a, j) => Float64Array.from(away, (b, k) => held.covariance[j]![k]! + a * b));
}

function lampShifts(fit: HeldFit, order: number, lamps: readonly string[], middle: number): LampShift[] {
  const perPixel = fit.coefficients[1]! / middle;
  const own = lamps.slice(1).map((_, k) => fit.coefficients[order + 1 + k]!);
  const variance = (rows: readonly number[]): number =>
    rows.reduce((sum, a) => sum + rows.reduce((part, b) => part + fit.covariance[a]![b]!, 0), 0);
  const columns = lamps.slice(1).map((_, k) => order + 1 + k);
  const values = [-own.reduce((sum, value) => sum + value, 0), ...own];
  const variances = [variance(columns), ...columns.map((column) => fit.covariance[column]![column]!)];
  return lamps.map((lamp, k) => ({
    lamp,
    // A lamp whose wavelengths lie above the fit at its pixels is seen at lower pixels than the fit says.
    shiftPixels: -values[k]! / perPixel,
    standardUncertaintyPixels: Math.sqrt(variances[k]!) / Math.abs(perPixel),
  }));
}
