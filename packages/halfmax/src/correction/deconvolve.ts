import type { BandReadings } from './bandReadings.js';
import type { BandData } from './fitBand.js';
import { applySpread } from './spreadMatrix.js';

/** A band sharpened without a model of its shape. */
export interface SharpenedBand {
  readonly readings: BandReadings;
  readonly rounds: number;
  /** Root of the mean weighted square of the residuals where the rounds stopped. */
  readonly misfit: number;
}

const MOST_ROUNDS = 200;

/**
 * Takes the line spread out by iteration, without a model of the band: an independent check on the fitted shape. Each
 * round multiplies the estimate by how far the pixels lie above what they would see of it; the rounds stop when the
 * residuals are as small as the noise, since further ones would fit the noise.
 *
 * @param data - pixels of the band and its feet
 * @returns the readings of the sharpened curve
 * Source: W. H. Richardson, J. Opt. Soc. Am. 62, 55 (1972); L. B. Lucy, Astron. J. 79, 745 (1974); stop by discrepancy:
 * V. A. Morozov, Soviet Math. Dokl. 7, 414 (1966). From memory.
 */
export function deconvolve(data: BandData): SharpenedBand {
  const { matrix, wavelengthNm, transmittance, standardUncertainty } = data;
  const grid = matrix.gridNm;
  const pixels = wavelengthNm.length;
  const least = 1e-4 * data.peakTransmittance;
  const target = transmittance.map((value) => Math.max(value, least));
  const estimate = startOn(grid, wavelengthNm, target);
  const norm = new Float64Array(grid.length);
  spreadBack(data, new Float64Array(pixels).fill(1), norm);
  const seen = new Float64Array(pixels);
  const ratio = new Float64Array(pixels);
  const factor = new Float64Array(grid.length);
  let rounds = 0;
  let misfit = Number.POSITIVE_INFINITY;
  for (; rounds < MOST_ROUNDS; rounds++) {
    applySpread(matrix, estimate, seen);
    let square = 0;
    for (let i = 0; i < pixels; i++)
      square += ((transmittance[i]! - seen[i]!) / standardUncertainty[i]!) ** 2;
    misfit = Math.sqrt(square / pixels);
    if (misfit <= 1) break;
    for (let i = 0; i < pixels; i++) ratio[i] = target[i]! / Math.max(seen[i]!, least / 10);
    spreadBack(data, ratio, factor);
    for (let g = 0; g < grid.length; g++) if (norm[g]! > 1e-9) estimate[g]! *= factor[g]! / norm[g]!;
  }
  return { readings: read(grid, estimate, data), rounds, misfit };
}

/** The measured curve on the grid, straight lines between pixels. */
function startOn(grid: Float64Array, wavelengthNm: Float64Array, values: Float64Array): Float64Array {
  let k = 0;
  return grid.map((nm) => {
    while (k < wavelengthNm.length - 2 && nm > wavelengthNm[k + 1]!) k++;
    const share = Math.min(
      1,
      Math.max(0, (nm - wavelengthNm[k]!) / (wavelengthNm[k + 1]! - wavelengthNm[k]!)),
    );
    return values[k]! * (1 - share) + values[k + 1]! * share;
  });
}

function spreadBack(data: BandData, values: Float64Array, out: Float64Array): void {
  out.fill(0);
  const { rows, from } = data.matrix;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!;
    for (let g = 0; g < row.length; g++) out[from[i]! + g]! += row[g]! * values[i]!;
  }
}

function read(grid: Float64Array, values: Float64Array, data: BandData): BandReadings {
  const inBand = (nm: number): boolean => Math.abs(nm - data.centreNm) < 0.7 * data.fwhmNm;
  let top = 0;
  for (let g = 0; g < grid.length; g++)
    if (inBand(grid[g]!) && (!inBand(grid[top]!) || values[g]! > values[top]!)) top = g;
  const half = values[top]! / 2;
  const crossing = (side: -1 | 1): number => {
    let g = top + side;
    let last = top;
    const limit = 1.2 * data.fwhmNm;
    for (; g > 0 && g < grid.length - 1 && Math.abs(grid[g]! - grid[top]!) < limit; g += side)
      if (values[g]! >= half) last = g;
    const next = Math.min(grid.length - 1, Math.max(0, last + side));
    const share = (values[last]! - half) / Math.max(1e-12, values[last]! - values[next]!);
    return grid[last]! + share * (grid[next]! - grid[last]!);
  };
  return { peakNm: grid[top]!, peakTransmittance: values[top]!, blueNm: crossing(-1), redNm: crossing(1) };
}
