/** A frame against a reference: frame = (level + tilt x) reference, x from -1 at the first pixel to 1 at the last. */
export interface LevelRatio {
  readonly level: number;
  readonly tilt: number;
}

/**
 * Level of a frame against a reference, as a straight line along the pixels: lamp level and its slow change of colour.
 *
 * @param counts - the frame; NaN is left out
 * @param reference - the frame it is compared with, same length
 * @param weights - weight of each pixel of the frame, 1/variance in any unit; 0 leaves a pixel out
 * @param tilted - false to fit the level alone
 * @returns level (1 = as the reference) and tilt; level 0 and tilt 0 where the reference has no light
 * Two parameters about the weighted mean place, so that they are orthogonal and no matrix is solved. Cost: O(n).
 * @example
 * levelRatio(Float64Array.of(2, 4, 6), Float64Array.of(1, 2, 3), Float64Array.of(1, 1, 1)); // => { level: 2, tilt: 0 }
 */
export function levelRatio(
  counts: Float64Array,
  reference: Float64Array,
  weights: Float64Array,
  tilted = true,
): LevelRatio {
  const last = Math.max(1, counts.length - 1);
  let sum = 0;
  let sumX = 0;
  let sumY = 0;
  for (let i = 0; i < counts.length; i++) {
    const r = reference[i]!;
    const y = counts[i]!;
    const w = weights[i]! * r * r;
    if (!(w > 0) || isMissing(y)) continue;
    sum += w;
    sumX += w * ((2 * i) / last - 1);
    sumY += (w * y) / r;
  }
  if (sum === 0) return { level: 0, tilt: 0 };
  const centre = sumX / sum;
  const mean = sumY / sum;
  if (!tilted) return { level: mean, tilt: 0 };
  let sumXX = 0;
  let sumXY = 0;
  for (let i = 0; i < counts.length; i++) {
    const r = reference[i]!;
    const y = counts[i]!;
    const w = weights[i]! * r * r;
    if (!(w > 0) || isMissing(y)) continue;
    const x = (2 * i) / last - 1 - centre;
    sumXX += w * x * x;
    sumXY += w * x * (y / r - mean);
  }
  const tilt = sumXX > 1e-12 * sum ? sumXY / sumXX : 0;
  return { level: mean - tilt * centre, tilt };
}

// Bound once: looked up in the loop, it makes the engine give up its compiled code at every call.
const isMissing = Number.isNaN;
