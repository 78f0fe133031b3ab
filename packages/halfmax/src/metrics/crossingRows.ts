import { vectorMemory } from '../vector/index.js';
import { bandKernel } from './bandKernel.js';
import { planBand } from './bandPlan.js';
import { isAbsent } from './quantity.js';
import type { BandOptions, BandRange, Curve } from './types.js';
import { putBand } from './vectorBand.js';

/** Reads one band in many trials side by side. */
export interface CrossingRows {
  /** First pixel that the numbers depend on, and the one after the last. */
  readonly firstPixel: number;
  readonly endPixel: number;
  /** Trials side by side: numbers in a row. */
  readonly trials: number;
  /**
   * Takes a row for each pixel from the first to the end, with the transmittance of each trial, finite; writes four
   * rows: height and place of the peak, blue and red crossing. NaN where a trial has none.
   */
  readonly read: (pixels: Float64Array, out: Float64Array) => void;
}

/**
 * The numbers of `crossingReader` for many trials at a time, by vectors: the same within rounding, several times sooner.
 *
 * @param curve - wavelengths, uncertainties and the transmittances that settle the windows
 * @param range - the band, from `findBands`
 * @param options - the line spread, where it is known
 * @returns the reader; places in air nm, height as a fraction
 * @throws {RangeError} a curve or range that is not as described
 * @throws {Error} a machine without vectors in WebAssembly
 * Cost: some milliseconds once, then some 0.2 to 0.6 microseconds a trial for bands of 37 to 63 pixels.
 */
export function crossingRows(curve: Curve, range: BandRange, options: BandOptions = {}): CrossingRows {
  const vector = vectorMemory();
  const { trials, run, take, floats } = vector;
  const nothing = (_: Float64Array, out: Float64Array): void => void out.fill(Number.NaN, 0, 4 * trials);
  const plan = planBand('crossingRows', curve, range, options);
  if (isAbsent(plan)) return { firstPixel: 0, endPixel: 0, trials, read: nothing };
  const kernel = bandKernel(plan);
  const { firstPixel, endPixel } = kernel;
  if (kernel.top.atNm.length === 0 || !kernel.whole) return { firstPixel, endPixel, trials, read: nothing };
  const { band, rowsNeeded } = putBand(vector, kernel, plan);
  const atPixels = take(8 * trials * rowsNeeded);
  const atOut = take(8 * trials * 4);
  const pixelRows = floats(atPixels, trials * (endPixel - firstPixel));
  const found = floats(atOut, trials * 4);
  return {
    firstPixel,
    endPixel,
    trials,
    read: (pixels, out) => {
      pixelRows.set(pixels);
      run.readMany(band, atPixels, atOut);
      out.set(found);
    },
  };
}
