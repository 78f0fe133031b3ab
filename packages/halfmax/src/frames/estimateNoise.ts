import { median } from '../numeric/median.js';
import { medianAbsoluteDeviation } from '../numeric/medianAbsoluteDeviation.js';
import { levelRatio } from './levelRatio.js';
import { type PooledVariance, pooledVariance } from './pooledVariance.js';
import type { NoiseModel } from './types.js';

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

/** Noise of one dark frame: the noise at no light. */
export interface DarkNoise {
  readonly variance: number;
  /** Frames less one, times pixels. */
  readonly degreesOfFreedom: number;
}

/** A noise model with its own uncertainty. */
export interface NoiseEstimate extends NoiseModel {
  readonly readVarianceUncertainty: number;
  readonly gainUncertainty: number;
}

interface LevelPoint {
  readonly level: number;
  readonly variance: number;
  /** Degrees of freedom behind it, which give its weight. */
  readonly freedom: number;
}

/** Values needed for an estimate: the variance of 100 normal values is known to 14 %. */
const enoughValues = 100;
/** The gain counts as found when its uncertainty is below a third of it. */
const foundShare = 1 / 3;
/** Slices of level. */
const binCount = 32;
/** A slice with fewer values is left out: its own clipping would be blind. */
const fewestValues = 4;

/**
 * Variance of a pixel against its level, as a straight line: read noise and photon noise.
 *
 * From the scatter between the frames of an entry, after the level and slow tilt of each frame are taken out (photon
 * transfer). Where there are too few frames, from the second differences of the open scans along the pixels, which
 * also count pixel-to-pixel differences of the detector as noise. Where that fails too, a stated assumption.
 *
 * @param groups - good frames of each entry that is not dark
 * @param darks - noise of dark frames, which fixes the line at no light; may be empty
 * @param resolutionVariance - variance of the rounding of a count, counts^2: the read variance is never put below it
 * @returns the line, its uncertainty, and in `method` how it was found
 * Source: on an array spectrometer the variance from frame differences is straight in the level from 1000 to 50 000
 * counts, slope 0.79 and 1.11 in two sessions of one unit (open measured data).
 */
export function estimateNoise(
  groups: readonly FrameGroup[],
  darks: readonly DarkNoise[],
  resolutionVariance = 0,
): NoiseEstimate {
  const dark = darkPoint(darks);
  const repeated = groups.filter((group) => group.frames.length >= 2);
  const wide = repeated.filter((group) => !group.lines);
  const tries: [LevelSample[], string][] = [
    [wide.flatMap(betweenFrames), 'scatter between the frames of an entry against their level'],
    [
      repeated.filter((group) => group.lines).flatMap(betweenFrames),
      'scatter between the frames of the lamp entries against their level',
    ],
    [
      groups.filter((group) => group.smooth).flatMap(betweenPixels),
      'second differences along the pixels of the open scans, for want of repeated frames',
    ],
  ];
  for (const [samples, method] of tries) {
    const line = fitLine(binned(samples), dark);
    if (line !== null) return floored(line, method, resolutionVariance);
  }
  const readVariance = dark?.variance ?? 0;
  return floored(
    { readVariance, gain: 1, readVarianceUncertainty: readVariance, gainUncertainty: 1 },
    'assumed: one count of variance per count of light, for want of frames and pixels to measure it',
    resolutionVariance,
  );
}

interface LevelSample {
  readonly levels: Float64Array;
  readonly variances: Float64Array;
  readonly degreesOfFreedom: number;
  /** Share of independent values: overlapping differences along the pixels count for less. */
  readonly independence: number;
}

function betweenFrames(group: FrameGroup): LevelSample[] {
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

function betweenPixels(group: FrameGroup): LevelSample[] {
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

/** Variance in slices of the level, even in its root so that the variance changes little within one. */
function binned(samples: readonly LevelSample[]): LevelPoint[] {
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
      const pooled: PooledVariance = pooledVariance(variances, sample.degreesOfFreedom);
      points.push({
        level: bin.reduce((sum, i) => sum + sample.levels[i]!, 0) / bin.length,
        variance: pooled.variance,
        freedom: pooled.values * sample.degreesOfFreedom * sample.independence,
      });
    }
  }
  return points;
}

function darkPoint(darks: readonly DarkNoise[]): LevelPoint | null {
  const usable = darks.filter((dark) => dark.degreesOfFreedom > 0);
  if (usable.length === 0) return null;
  // darks of a long exposure hold the noise of the dark current: the quietest stands for the converter
  const quietest = usable.reduce((best, dark) => (dark.variance < best.variance ? dark : best));
  return { level: 0, variance: quietest.variance, freedom: quietest.degreesOfFreedom };
}

type Line = Omit<NoiseEstimate, 'method'>;

/** Weighted straight line; weights follow from the line itself, points far off it are left out. */
function fitLine(light: readonly LevelPoint[], dark: LevelPoint | null): Line | null {
  if (light.reduce((sum, point) => sum + point.freedom, 0) < enoughValues) return null;
  const points = dark === null ? light : [...light, dark];
  const top = Math.max(...points.map((point) => point.level));
  if (!(top > 0)) return null;
  if (points.every((point) => point.variance <= 1e-18 * top * top)) {
    return { readVariance: 0, gain: 0, readVarianceUncertainty: 0, gainUncertainty: 0 };
  }
  const smallest = 1e-6 * median(points.map((point) => point.variance)) + Number.MIN_VALUE;
  // the first weights come from medians, which slices far off the line cannot pull
  const dim = points.filter((point) => point.level <= 0.01 * top).map((point) => point.variance);
  const start = dim.length > 0 ? median(dim) : Math.min(...points.map((point) => point.variance));
  const bright = points.filter((point) => point.level > 0.05 * top);
  const slope = Math.max(0, median(bright.map((point) => (point.variance - start) / point.level)));
  let fitted = points.map((point) => Math.max(start + slope * point.level, smallest));
  let kept = points.map(() => true);
  let line: Line | null = null;
  for (let pass = 0; pass < 8; pass++) {
    line = weightedLine(points, fitted, kept);
    if (line === null) return null;
    const { readVariance, gain } = line;
    fitted = points.map((point) => Math.max(readVariance + gain * point.level, smallest));
    const pulls = points.map((point, i) => (point.variance / fitted[i]! - 1) / Math.sqrt(2 / point.freedom));
    const spread = Math.max(1, medianAbsoluteDeviation(pulls.filter((_, i) => points[i]!.freedom > 0)));
    kept = pulls.map((pull) => Math.abs(pull) < 5 * spread);
  }
  return line !== null && line.gain > 0 && line.gainUncertainty < foundShare * line.gain ? line : null;
}

function weightedLine(
  points: readonly LevelPoint[],
  fitted: readonly number[],
  kept: readonly boolean[],
): Line | null {
  let sum = 0;
  let sumX = 0;
  let sumY = 0;
  const weights = points.map((point, i) => (kept[i]! ? point.freedom / (2 * fitted[i]! ** 2) : 0));
  points.forEach((point, i) => {
    sum += weights[i]!;
    sumX += weights[i]! * point.level;
    sumY += weights[i]! * point.variance;
  });
  if (!(sum > 0)) return null;
  const meanX = sumX / sum;
  const meanY = sumY / sum;
  let sumXX = 0;
  let sumXY = 0;
  points.forEach((point, i) => {
    sumXX += weights[i]! * (point.level - meanX) ** 2;
    sumXY += weights[i]! * (point.level - meanX) * (point.variance - meanY);
  });
  if (!(sumXX > 0)) return null;
  const gain = sumXY / sumXX;
  const readVariance = meanY - gain * meanX;
  // scatter of the points beyond their own weights widens the uncertainty
  let squares = 0;
  let used = 0;
  points.forEach((point, i) => {
    squares += weights[i]! * (point.variance - readVariance - gain * point.level) ** 2;
    if (weights[i]! > 0) used++;
  });
  const widen = used > 3 ? Math.max(1, Math.sqrt(squares / (used - 2))) : 1;
  if (readVariance >= 0) {
    return {
      readVariance,
      gain,
      readVarianceUncertainty: widen * Math.sqrt(1 / sum + meanX ** 2 / sumXX),
      gainUncertainty: widen / Math.sqrt(sumXX),
    };
  }
  // a negative read variance has no meaning: the line through the origin
  let originXX = 0;
  let originXY = 0;
  points.forEach((point, i) => {
    originXX += weights[i]! * point.level ** 2;
    originXY += weights[i]! * point.level * point.variance;
  });
  return {
    readVariance: 0,
    gain: originXY / originXX,
    readVarianceUncertainty: widen * Math.sqrt(1 / sum + meanX ** 2 / sumXX),
    gainUncertainty: widen / Math.sqrt(originXX),
  };
}

function floored(line: Line, method: string, resolutionVariance: number): NoiseEstimate {
  return { ...line, readVariance: Math.max(line.readVariance, resolutionVariance), method };
}
