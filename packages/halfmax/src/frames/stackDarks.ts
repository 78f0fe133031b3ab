import { median } from '../numeric/median.js';
import { medianAbsoluteDeviation } from '../numeric/medianAbsoluteDeviation.js';
import { lineariseCounts } from './lineariseCounts.js';
import { medianFrame } from './medianFrame.js';
import { pooledVariance } from './pooledVariance.js';
import type { Detector, FrameEntry, Scan } from './types.js';

/** All dark frames of one exposure. */
export interface DarkStack {
  readonly exposureMs: number;
  /** Mean dark, linearised counts; NaN where undefined or saturated. */
  readonly counts: Float64Array;
  /** Frames that went into each pixel. */
  readonly frames: Uint16Array;
  readonly files: readonly string[];
  /** Variance of one frame common to the pixels, counts^2; null from a single frame. */
  readonly variance: number | null;
  /** Variance of a pixel above the common one, counts^2: unstable pixels, else 0. */
  readonly excessVariance: Float64Array;
  /** Counts by which the dark of a warm pixel stands above the others, else 0: dark current, with photon-like noise. */
  readonly warmCounts: Float64Array;
  /** Variance of the level of whole frames, counts^2, where it is more than the pixels' noise gives. */
  readonly levelVariance: number;
  /** The raw frames, for checks on values as in the file. */
  readonly scans: readonly Scan[];
}

/** Exposures that differ by less than this fraction are the same. */
export const sameExposure = 1e-3;

/** An own variance this many times the common one makes a pixel unstable: 5 times the noise. */
const unstableRatio = 25;
/** A pixel is warm when its dark stands so many scatters of all pixels' darks above their median. */
const warmDeviations = 5;
/** A dark value this many standard deviations above the median of its pixel is a hit. */
const hitDeviations = 8;

/**
 * Joins the dark frames of a session, exposure by exposure: the mean of each pixel without hits.
 *
 * A value counts as a hit when it lies more than 8 standard deviations above the median of its pixel, by the noise
 * common to the frames and by the pixel's own scatter alike; three frames are needed for it.
 *
 * @param entries - entries of any role; only `dark` is used
 * @param detector - saturation and linearity
 * @returns one stack per exposure, by rising exposure; empty without darks
 * Source: darks at the exposure of the light after doi:10.1155/2011/608157; limits are common practice, no source.
 */
export function stackDarks(entries: readonly FrameEntry[], detector: Detector): DarkStack[] {
  const groups: { exposureMs: number; scans: Scan[] }[] = [];
  for (const entry of [...entries].sort((a, b) => a.exposureMs - b.exposureMs)) {
    if (entry.role !== 'dark') continue;
    const last = groups.at(-1);
    if (last !== undefined && entry.exposureMs <= last.exposureMs * (1 + sameExposure)) {
      last.scans.push(...entry.scans);
    } else groups.push({ exposureMs: entry.exposureMs, scans: [...entry.scans] });
  }
  return groups.map((group) => stack(group.exposureMs, group.scans, detector));
}

function stack(exposureMs: number, scans: readonly Scan[], detector: Detector): DarkStack {
  const frames = scans.map((scan) => {
    const counts = lineariseCounts(scan.counts, detector.linearity);
    for (let i = 0; i < counts.length; i++) {
      if (scan.counts[i]! >= detector.saturationCounts) counts[i] = Number.NaN;
    }
    return counts;
  });
  const n = frames.length;
  const rough = medianFrame(frames);
  const levels = frames.map((frame) => medianOfDifference(frame, rough));
  const middle = medianFrame(frames.map((frame, k) => frame.map((value) => value - levels[k]!)));
  const pooled = n < 2 ? null : commonVariance(frames, levels, n - 1);
  const hitLimit = pooled === null || n < 3 ? Number.POSITIVE_INFINITY : hitDeviations * Math.sqrt(pooled);

  const pixels = detector.pixels;
  const counts = new Float64Array(pixels);
  const used = new Uint16Array(pixels);
  const excessVariance = new Float64Array(pixels);
  const values = new Float64Array(n);
  for (let i = 0; i < pixels; i++) {
    for (let k = 0; k < n; k++) values[k] = frames[k]![i]! - levels[k]!;
    const limit =
      hitLimit < Number.POSITIVE_INFINITY && !Number.isNaN(middle[i]!)
        ? Math.max(hitLimit, hitDeviations * scatter(values))
        : hitLimit;
    let sum = 0;
    let squares = 0;
    let count = 0;
    for (let k = 0; k < n; k++) {
      const deviation = values[k]! - middle[i]!;
      if (!(deviation <= limit)) continue;
      // the level of each whole frame stays in: it is part of the mean
      sum += deviation + levels[k]!;
      squares += deviation * deviation;
      count++;
    }
    counts[i] = count === 0 ? Number.NaN : middle[i]! + sum / count;
    used[i] = count;
    if (pooled !== null && count >= 2) {
      const own = squares / (count - 1);
      if (own > unstableRatio * pooled && own > 0) excessVariance[i] = own - pooled;
    }
  }
  return {
    exposureMs,
    counts,
    frames: used,
    files: scans.map((scan) => scan.file),
    variance: pooled,
    excessVariance,
    warmCounts: warmthOf(counts),
    levelVariance: levelVariance(levels, pooled ?? 0, pixels),
    scans,
  };
}

function medianOfDifference(frame: Float64Array, reference: Float64Array): number {
  const differences = frame.map((value, i) => value - reference[i]!).filter((value) => !Number.isNaN(value));
  return differences.length === 0 ? 0 : median(differences);
}

function commonVariance(frames: readonly Float64Array[], levels: readonly number[], dof: number): number {
  const variances: number[] = [];
  for (let i = 0; i < frames[0]!.length; i++) {
    let sum = 0;
    for (let k = 0; k < frames.length; k++) sum += frames[k]![i]! - levels[k]!;
    const mean = sum / frames.length;
    let squares = 0;
    for (let k = 0; k < frames.length; k++) squares += (frames[k]![i]! - levels[k]! - mean) ** 2;
    if (!Number.isNaN(squares)) variances.push(squares / dof);
  }
  return variances.length === 0 ? 0 : pooledVariance(variances, dof).variance;
}

function scatter(values: Float64Array): number {
  const defined = values.filter((value) => !Number.isNaN(value));
  return defined.length === 0 ? 0 : medianAbsoluteDeviation(defined);
}

function warmthOf(counts: Float64Array): Float64Array {
  const defined = counts.filter((value) => !Number.isNaN(value));
  const warm = new Float64Array(counts.length);
  if (defined.length === 0) return warm;
  const middle = median(defined);
  const limit = warmDeviations * medianAbsoluteDeviation(defined);
  for (let i = 0; i < warm.length; i++) {
    const above = counts[i]! - middle;
    if (above > limit) warm[i] = above;
  }
  return warm;
}

/** Variance of the frames' levels above what the median of so many pixels scatters anyhow. */
function levelVariance(levels: readonly number[], variance: number, pixels: number): number {
  const n = levels.length;
  if (n < 2) return 0;
  const mean = levels.reduce((sum, level) => sum + level, 0) / n;
  const observed = levels.reduce((sum, level) => sum + (level - mean) ** 2, 0) / (n - 1);
  return Math.max(0, observed - ((Math.PI / 2) * variance) / pixels);
}
