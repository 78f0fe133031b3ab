import { levelRatio } from './levelRatio.js';
import { pooledVariance } from './pooledVariance.js';

/** Good frames of one entry: counts above dark, NaN where saturated, undefined or hit. */
export interface FrameGroup {
  readonly frames: readonly Float64Array[];
  /** Variance of one frame of unstable pixels above the common noise; 0 elsewhere, counts^2. */
  readonly excessVariance: Float64Array;
  /** True where the spectrum is smooth from pixel to pixel: an open beam. */
  readonly smooth: boolean;
  /** Lines on which small shifts of the scale look like noise: used for noise only where nothing else is. */
  readonly lines: boolean;
}

/** Variances of pixels against their levels. */
export interface LevelSample {
  readonly levels: Float64Array;
  readonly variances: Float64Array;
  readonly degreesOfFreedom: number;
  /** Share of independent values: overlapping differences along the pixels count for less. */
  readonly independence: number;
}

/** Variance at a level. */
export interface LevelPoint {
  readonly level: number;
  readonly variance: number;
  /** Degrees of freedom behind it, which give its weight. */
  readonly freedom: number;
}

/** Slices of level. */
const binCount = 32;
/** A slice with fewer values is left out: its own clipping would be blind. */
const fewestValues = 4;

/**
 * Variance of each pixel between the frames of an entry, after the level and slow tilt of each frame are taken out.
 *
 * @param group - two good frames or more
 * @returns a sample; none where no pixel is left
 */
export function betweenFrames(group: FrameGroup): LevelSample[] {
  const n = group.frames.length;
  const pixels = group.frames[0]!.length;
  const mean = new Float64Array(pixels);
  for (let i = 0; i < pixels; i++) {
    let sum = 0;
    for (const frame of group.frames) sum += frame[i]!;
    mean[i] = group.excessVariance[i]! > 0 ? Number.NaN : sum / n;
  }
  const lit = Float64Array.from(mean, (value) => (value > 0 ? 1 / value : 0));
  const ratios = group.frames.map((frame) => levelRatio(frame, mean, lit));
  const levels: number[] = [];
  const variances: number[] = [];
  for (let i = 0; i < pixels; i++) {
    const level = mean[i]!;
    if (Number.isNaN(level)) continue;
    const x = (2 * i) / Math.max(1, pixels - 1) - 1;
    let squares = 0;
    for (let k = 0; k < n; k++) {
      squares += (group.frames[k]![i]! - (ratios[k]!.level + ratios[k]!.tilt * x) * level) ** 2;
    }
    levels.push(Math.max(0, level));
    variances.push(squares / (n - 1));
  }
  if (levels.length === 0) return [];
  return [
    {
      levels: Float64Array.from(levels),
      variances: Float64Array.from(variances),
      degreesOfFreedom: n - 1,
      independence: 1,
    },
  ];
}

/**
 * Variance of each pixel from the second differences along the pixels.
 *
 * @param group - frames of a smooth spectrum
 * @returns a sample for each frame
 */
export function betweenPixels(group: FrameGroup): LevelSample[] {
  const samples: LevelSample[] = [];
  for (const frame of group.frames) {
    const levels: number[] = [];
    const variances: number[] = [];
    for (let i = 1; i + 1 < frame.length; i++) {
      const second = frame[i - 1]! - 2 * frame[i]! + frame[i + 1]!;
      if (Number.isNaN(second) || group.excessVariance[i]! > 0) continue;
      levels.push(Math.max(0, (frame[i - 1]! + frame[i]! + frame[i + 1]!) / 3));
      variances.push((second * second) / 6);
    }
    if (levels.length === 0) continue;
    samples.push({
      levels: Float64Array.from(levels),
      variances: Float64Array.from(variances),
      degreesOfFreedom: 1,
      // squares of neighbouring second differences are correlated by (4/6)^2 and (1/6)^2
      independence: 1 / (1 + 2 * (4 / 6) ** 2 + 2 * (1 / 6) ** 2),
    });
  }
  return samples;
}

/**
 * Variance in slices of the level, even in its root so that the variance changes little within one.
 *
 * @param samples - variances of pixels
 * @returns a point for each slice that holds enough of them
 */
export function sliceLevels(samples: readonly LevelSample[]): LevelPoint[] {
  const points: LevelPoint[] = [];
  for (const sample of samples) {
    let top = 0;
    for (const level of sample.levels) if (level > top) top = level;
    const bins: number[][] = Array.from({ length: binCount }, () => []);
    sample.levels.forEach((level, i) => {
      const at = top > 0 ? Math.floor(binCount * Math.sqrt(level / top)) : 0;
      bins[Math.min(binCount - 1, at)]!.push(i);
    });
    for (const bin of bins) {
      if (bin.length < fewestValues) continue;
      const variances = bin.map((i) => sample.variances[i]!);
      const pooled = pooledVariance(variances, sample.degreesOfFreedom);
      points.push({
        level: bin.reduce((sum, i) => sum + sample.levels[i]!, 0) / bin.length,
        variance: pooled.variance,
        freedom: pooled.values * sample.degreesOfFreedom * sample.independence,
      });
    }
  }
  return points;
}
