import { designRow, leaveOneOutRms, type ScalePoint, type Solution } from './dispersionSolution.js';
import { fitHeldPolynomial, type HeldFit } from './heldPolynomial.js';
import type { Dispersion, LampShift } from './types.js';

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

/** The covariance allows for orders up to this one at least. */
const WIDEST_ORDER = 5;
/**
 * Standard uncertainty, in pixels, of where broadband light falls against a lamp's light, where two lamps do not show
 * more: lamps fill a fibre differently. Common practice, no source.
 */
export const COUPLING_PIXELS: number = 0.03;

/** What a solution says of the scale: coefficients with their whole covariance, residuals, shifts of the lamps. */
export function describeDispersion(
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
