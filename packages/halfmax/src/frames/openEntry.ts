import { medianAbsoluteDeviation } from '../numeric/medianAbsoluteDeviation.js';
import type { DarkLevel } from './darkAt.js';
import { lineariseCounts } from './lineariseCounts.js';
import { saturationMask } from './saturationMask.js';
import type { Detector, FrameEntry, Scan } from './types.js';

/** One frame with the dark taken off. */
export interface OpenedFrame {
  readonly scan: Scan;
  /** Counts above dark, saturated pixels at their clipped value, NaN where undefined. */
  readonly counts: Float64Array;
  /** The same for comparing frames: NaN where at least half of the frames are saturated. */
  readonly compared: Float64Array;
  /** 1 where this frame is saturated, with one pixel of bleed, or undefined. */
  readonly masked: Uint8Array;
  /** Pixels that a particle struck. */
  readonly hits: readonly number[];
}

/** One entry with the dark taken off. */
export interface OpenedEntry {
  readonly entry: FrameEntry;
  readonly frames: readonly OpenedFrame[];
  /** Variance of a frame of unstable pixels above the common noise, counts^2. */
  readonly excessVariance: Float64Array;
  /** Variance of a pixel from its neighbours, counts^2: an upper estimate of the noise. */
  readonly pixelVariance: number;
}

/**
 * Linearises the frames of an entry and takes the dark off.
 *
 * @param entry - raw frames
 * @param dark - dark at the exposure of the entry, linearised
 * @param detector - saturation and linearity
 * @returns frames above dark with their masks
 */
export function openEntry(entry: FrameEntry, dark: DarkLevel, detector: Detector): OpenedEntry {
  const frames = entry.scans.map((scan) => {
    const counts = lineariseCounts(scan.counts, detector.linearity);
    const masked = saturationMask(scan.counts, detector.saturationCounts);
    for (let i = 0; i < counts.length; i++) {
      counts[i] = counts[i]! - dark.counts[i]!;
      if (Number.isNaN(counts[i]!)) masked[i] = 1;
    }
    return { scan, counts, masked, hits: [] };
  });
  const often = new Uint16Array(detector.pixels);
  for (const frame of frames) for (let i = 0; i < often.length; i++) often[i] = often[i]! + frame.masked[i]!;
  return {
    entry,
    frames: frames.map((frame) => ({
      ...frame,
      compared: frame.counts.map((value, i) => (2 * often[i]! >= frames.length ? Number.NaN : value)),
    })),
    excessVariance: dark.excessVariance,
    pixelVariance: varianceAlongPixels(frames[0]!.counts),
  };
}

function varianceAlongPixels(counts: Float64Array): number {
  const seconds: number[] = [];
  for (let i = 1; i + 1 < counts.length; i++) {
    const second = counts[i - 1]! - 2 * counts[i]! + counts[i + 1]!;
    if (!Number.isNaN(second)) seconds.push(second);
  }
  return seconds.length === 0 ? 0 : medianAbsoluteDeviation(seconds) ** 2 / 6;
}
