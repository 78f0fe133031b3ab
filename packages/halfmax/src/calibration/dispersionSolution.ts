import type { HeldFit } from './heldPolynomial.js';

/** A line that may carry the scale. */
export interface ScalePoint {
  readonly lamp: string;
  readonly pixel: number;
  readonly pixelUncertainty: number;
  readonly wavelengthNm: number;
}

/** A fit of one order to the lines kept. */
export interface Solution {
  readonly order: number;
  readonly shifted: boolean;
  readonly fit: HeldFit;
  readonly jitterNm: number;
  readonly orders: readonly { order: number; rmsNm: number }[];
  readonly lamps: readonly string[];
}

/** Powers of the pixel about the middle, and the shifts of the lamps. */
export function designRow(
  point: ScalePoint,
  order: number,
  lamps: readonly string[],
  middle: number,
): number[] {
  const t = (point.pixel - middle) / middle;
  const row = Array.from({ length: order + 1 }, (_, k) => t ** k);
  // Shifts in nm that sum to zero over the lamps: the first lamp carries minus the sum of the others.
  for (const lamp of lamps.slice(1)) row.push(point.lamp === lamp ? 1 : point.lamp === lamps[0] ? -1 : 0);
  return row;
}

/** Root mean square error of each line predicted by a fit to the others. */
export function leaveOneOutRms(fit: HeldFit): number {
  let sum = 0;
  for (let i = 0; i < fit.residuals.length; i++)
    sum += (fit.residuals[i]! / Math.max(1e-9, 1 - fit.leverage[i]!)) ** 2;
  return Math.sqrt(sum / fit.residuals.length);
}
