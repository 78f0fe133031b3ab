import type { SlitImage, Trace } from './slitImage.js';

/**
 * The spectrum of a slit image: the mean over the rows along the trace, edge rows counted by the part that lies inside.
 *
 * The mean and not the sum, so that the result stays on the scale of one pixel and the detector's saturation limit and
 * linearity keep their meaning. Where a row inside the trace is saturated or undefined the result is NaN: a mean would
 * hide it. No background is taken off: the dark frames, extracted along the same rows, do that.
 *
 * @param image - raw counts
 * @param trace - found once per session, the same for all its frames
 * @param saturationCounts - limit of a single pixel
 * @returns counts per pixel along the dispersion, NaN where a row is saturated or undefined
 * @throws {RangeError} trace and image of different width
 * Cost: O(pixels x rows).
 */
export function extractSpectrum(image: SlitImage, trace: Trace, saturationCounts: number): Float64Array {
  const { pixels, rows, counts } = image;
  if (trace.centreRow.length !== pixels) {
    throw new RangeError(
      `extractSpectrum requires a trace of ${pixels} pixels, got ${trace.centreRow.length}`,
    );
  }
  const spectrum = new Float64Array(pixels);
  for (let p = 0; p < pixels; p++) {
    // Row r covers r - 0.5 to r + 0.5.
    const low = Math.max(trace.centreRow[p]! - trace.below, -0.5);
    const high = Math.min(trace.centreRow[p]! + trace.above, rows - 0.5);
    let sum = 0;
    let weights = 0;
    for (let r = Math.max(0, Math.round(low)); r < rows && r - 0.5 < high; r++) {
      const weight = Math.min(high, r + 0.5) - Math.max(low, r - 0.5);
      if (weight <= 0) continue;
      const value = counts[r * pixels + p]!;
      sum += value >= saturationCounts ? Number.NaN : weight * value;
      weights += weight;
    }
    spectrum[p] = weights > 0 ? sum / weights : Number.NaN;
  }
  return spectrum;
}
