/** How far a frame lies from another along the pixels. */
export interface FrameShift {
  /** Pixels; positive: the frame lies at higher pixel numbers than the reference. */
  readonly shiftPixels: number;
  /** Standard uncertainty from noise, pixels; Infinity where the reference has no structure. */
  readonly standardUncertainty: number;
}

/**
 * Shift between two frames from the top of their cross-correlation, a parabola through its three highest points.
 *
 * @param counts - the frame, counts above dark; NaN counts as no light
 * @param reference - the frame it is compared with, same length
 * @param variance - variance of one pixel of the difference, counts^2
 * @param maxShift - largest shift looked for, pixels
 * @returns shift and its uncertainty, pixels
 * Source: common practice, no source. Cost: O(n x maxShift).
 */
export function frameShift(
  counts: Float64Array,
  reference: Float64Array,
  variance: number,
  maxShift = 20,
): FrameShift {
  const a = withoutMean(counts);
  const b = withoutMean(reference);
  const n = a.length;
  const reach = Math.min(maxShift, n - 2);
  const product = new Float64Array(2 * reach + 1);
  let top = 0;
  for (let lag = -reach; lag <= reach; lag++) {
    let sum = 0;
    for (let i = Math.max(0, lag); i < Math.min(n, n + lag); i++) sum += a[i]! * b[i - lag]!;
    product[lag + reach] = sum;
    if (sum > product[top]!) top = lag + reach;
  }
  let slopes = 0;
  for (let i = 1; i + 1 < n; i++) slopes += ((b[i + 1]! - b[i - 1]!) / 2) ** 2;
  const standardUncertainty = slopes > 0 ? Math.sqrt(variance / slopes) : Number.POSITIVE_INFINITY;
  let shiftPixels = top - reach;
  if (top > 0 && top < 2 * reach) {
    const left = product[top - 1]!;
    const right = product[top + 1]!;
    const bend = left - 2 * product[top]! + right;
    if (bend < 0) shiftPixels += (left - right) / (2 * bend);
  }
  return { shiftPixels, standardUncertainty };
}

function withoutMean(counts: Float64Array): Float64Array {
  let sum = 0;
  let n = 0;
  for (const value of counts) {
    if (Number.isNaN(value)) continue;
    sum += value;
    n++;
  }
  const mean = n > 0 ? sum / n : 0;
  return counts.map((value) => (Number.isNaN(value) ? 0 : value - mean));
}
