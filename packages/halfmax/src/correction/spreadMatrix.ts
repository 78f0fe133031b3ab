import type { LineShape } from '../calibration/index.js';

/** How pixels see a curve on a fine grid: rows of weights that sum to 1. */
export interface SpreadMatrix {
  /** The fine grid, air, nm, ascending, even. */
  readonly gridNm: Float64Array;
  /** First grid point of each row. */
  readonly from: Int32Array;
  readonly rows: readonly Float64Array[];
}

/** The line spread at a pixel, pixel included. */
export interface PixelSpread {
  /** Standard deviation, nm. */
  readonly sigmaNm: number;
  /** Relative slope of the open beam, per nm. */
  readonly lampSlopePerNm: number;
}

/**
 * Weights with which each pixel sees the transmittance around it: the line spread times the light of the lamp.
 *
 * @param wavelengthNm - pixels, ascending, nm
 * @param spreads - line spread and lamp at each pixel
 * @param shape - shape of the line spread
 * @param direction - 1 where wavelength rises with pixel, -1 where it falls: a skewed spread turns over
 * @returns the weights
 */
export function spreadMatrix(
  wavelengthNm: Float64Array,
  spreads: readonly PixelSpread[],
  shape: LineShape,
  direction: 1 | -1,
): SpreadMatrix {
  const narrowest = Math.min(...spreads.map((spread) => spread.sigmaNm));
  const widest = Math.max(...spreads.map((spread) => spread.sigmaNm));
  const step = narrowest / STEPS_PER_SIGMA;
  const start = wavelengthNm[0]! - REACH * widest;
  const length = Math.ceil((wavelengthNm[wavelengthNm.length - 1]! + REACH * widest - start) / step) + 1;
  const gridNm = Float64Array.from({ length }, (_, g) => start + g * step);
  const from = new Int32Array(wavelengthNm.length);
  const rows = spreads.map((spread, i) => {
    const centre = wavelengthNm[i]!;
    const first = Math.max(0, Math.ceil((centre - REACH * spread.sigmaNm - start) / step));
    const last = Math.min(length - 1, Math.floor((centre + REACH * spread.sigmaNm - start) / step));
    const row = new Float64Array(last - first + 1);
    let sum = 0;
    for (let g = first; g <= last; g++) {
      const away = gridNm[g]! - centre;
      const light = Math.max(0.1, 1 + spread.lampSlopePerNm * away);
      const weight = light * Math.max(0, shape.value((-direction * away) / spread.sigmaNm));
      row[g - first] = weight;
      sum += weight;
    }
    for (let g = 0; g < row.length; g++) row[g]! /= sum;
    from[i] = first;
    return row;
  });
  return { gridNm, from, rows };
}

/** Grid points per standard deviation of the narrowest spread, and the spread's reach in standard deviations. */
const STEPS_PER_SIGMA = 8;
const REACH = 4.5;

/**
 * What the pixels see of a curve on the grid.
 *
 * @param matrix - the weights
 * @param curve - values on matrix.gridNm
 * @param out - filled with one value per pixel
 */
export function applySpread(matrix: SpreadMatrix, curve: Float64Array, out: Float64Array): void {
  for (let i = 0; i < matrix.rows.length; i++) {
    const row = matrix.rows[i]!;
    const from = matrix.from[i]!;
    let sum = 0;
    for (let g = 0; g < row.length; g++) sum += row[g]! * curve[from + g]!;
    out[i] = sum;
  }
}
