import type { DarkLevel } from './darkAt.js';
import { levelRatio } from './levelRatio.js';
import type { OpenedEntry } from './openEntry.js';
import type { CleanSpectrum, NoiseModel } from './types.js';

/** The mean of an entry's good frames. */
export interface MeanSpectrum {
  readonly spectrum: CleanSpectrum;
  /** Mean raw counts as in the file. */
  readonly raw: Float64Array;
  /** Scatter between frames over what the noise model allows, in lit or dim pixels, whichever is more; 1 or more. */
  readonly excess: number;
}

/** Scatter must exceed the model by this many standard deviations of chi-squared to be scaled up. */
const significantDeviations = 5;
/** What the noise model itself may be off, relative variance. */
const modelTolerance = 0.05;
/** Pixels above this share of the brightest one are judged apart from the others. */
const litShare = 0.1;
/** Length of the pieces in which the level of a lamp frame is taken out, pixels. */
const lampPiecePixels = 32;

/**
 * Mean of the good frames of an entry with the noise of the mean.
 *
 * @param entry - frames above dark
 * @param dark - the dark taken off, with its uncertainty
 * @param noise - variance of one pixel of one frame against its level
 * @returns mean counts, noise and masks; a pixel saturated or undefined in any frame is masked
 * Source: chi-squared of the frames about their mean, level of each frame taken out; limits are common practice,
 * no source.
 */
export function meanSpectrum(
  entry: OpenedEntry,
  dark: DarkLevel,
  noise: Pick<NoiseModel, 'readVariance' | 'gain'>,
): MeanSpectrum {
  const { frames } = entry;
  const pixels = dark.counts.length;
  const counts = new Float64Array(pixels);
  const raw = new Float64Array(pixels);
  const masked = new Uint8Array(pixels);
  const used = new Float64Array(pixels);
  for (const frame of frames) {
    const hit = new Set(frame.hits);
    for (let i = 0; i < pixels; i++) {
      if (hit.has(i)) continue;
      if (frame.masked[i] === 1) masked[i] = 1;
      counts[i] = counts[i]! + frame.counts[i]!;
      raw[i] = raw[i]! + frame.scan.counts[i]!;
      used[i] = used[i]! + 1;
    }
  }
  const variance = new Float64Array(pixels);
  for (let i = 0; i < pixels; i++) {
    raw[i] = raw[i]! / used[i]!;
    if (used[i] === 0) masked[i] = 1;
    counts[i] = masked[i] === 1 ? 0 : counts[i]! / used[i]!;
    variance[i] = noise.readVariance + noise.gain * Math.max(0, counts[i]!) + entry.excessVariance[i]!;
  }
  // lit and dim pixels apart: the few lit pixels of a narrow band would not show among the dim ones
  const top = counts.reduce((best, value) => Math.max(best, value), 0);
  const lit = counts.map((value) => (value > litShare * top ? 1 : 0));
  const excess = excessScatter(entry, counts, masked, variance, lit);
  const of = (value: (i: number) => number): Float64Array =>
    Float64Array.from(counts, (_, i) => (masked[i] === 1 ? 0 : value(i)));
  return {
    spectrum: {
      entry: entry.entry.index,
      role: entry.entry.role,
      lamp: entry.entry.lamp,
      filter: entry.entry.filter,
      takenAtMs: entry.entry.takenAtMs,
      exposureMs: entry.entry.exposureMs,
      frames: frames.length,
      counts,
      noise: of((i) => excess[lit[i]!]! * Math.sqrt(variance[i]! / used[i]!)),
      darkNoise: of((i) => dark.standardUncertainty[i]!),
      masked,
      wavelengthNm: frames.find((frame) => frame.scan.wavelengthNm !== null)?.scan.wavelengthNm ?? null,
    },
    raw,
    excess: Math.max(...excess),
  };
}

function excessScatter(
  entry: OpenedEntry,
  counts: Float64Array,
  masked: Uint8Array,
  variance: Float64Array,
  lit: Float64Array,
): [number, number] {
  const { frames } = entry;
  if (frames.length < 2) return [1, 1];
  const weights = variance.map((value, i) => (masked[i] === 1 || !(value > 0) ? 0 : 1 / value));
  // the lines of a lamp warm up one by one: their levels are taken out piece by piece
  const pixels = counts.length;
  const piece = entry.entry.role === 'lamp' ? Math.min(lampPiecePixels, pixels) : pixels;
  const tilted = piece === pixels;
  const chiSquared: [number, number] = [0, 0];
  const freedom: [number, number] = [0, 0];
  const fitted = (tilted ? 2 : 1) * (1 - 1 / frames.length);
  for (const frame of frames) {
    const clean = frame.counts.slice();
    for (const i of frame.hits) clean[i] = Number.NaN;
    for (let from = 0; from < pixels; from += piece) {
      const to = Math.min(pixels, from + piece);
      const mean = counts.subarray(from, to);
      const { level, tilt } = levelRatio(clean.subarray(from, to), mean, weights.subarray(from, to), tilted);
      const values: [number, number] = [0, 0];
      for (let i = from; i < to; i++) {
        if (weights[i] === 0 || Number.isNaN(clean[i]!)) continue;
        const x = (2 * (i - from)) / Math.max(1, to - from - 1) - 1;
        const kind = lit[i] === 1 ? 1 : 0;
        chiSquared[kind] += (clean[i]! - (level + tilt * x) * counts[i]!) ** 2 * weights[i]!;
        values[kind]++;
      }
      freedom[0] += values[0] * (1 - 1 / frames.length);
      freedom[1] += values[1] * (1 - 1 / frames.length);
      // the level is fitted to the lit pixels, where there are any
      if (values[1] > 0) freedom[1] -= fitted;
      else if (values[0] > 0) freedom[0] -= fitted;
    }
  }
  return [scaleOf(chiSquared[0], freedom[0]), scaleOf(chiSquared[1], freedom[1])];
}

function scaleOf(chiSquared: number, freedom: number): number {
  if (freedom < 10) return 1;
  const reduced = chiSquared / freedom;
  const limit = 1 + modelTolerance + significantDeviations * Math.sqrt(2 / freedom);
  return reduced > limit ? Math.sqrt(reduced) : 1;
}
