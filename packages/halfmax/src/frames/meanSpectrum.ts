import type { DarkLevel } from './darkAt.js';
import { levelRatio } from './levelRatio.js';
import type { OpenedEntry } from './openEntry.js';
import { chiSquaredLimit, pooledVariance } from './pooledVariance.js';
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
/** A single pixel has its own scatter as noise beyond so many standard deviations of chi-squared: 3 in a million. */
const ownDeviations = 4.5;
/** Pixels that tell what scatter is common to them. */
const fewestFellows = 10;
/** Length of the pieces in which the level of a lamp frame is taken out, pixels. */
const lampPiecePixels = 32;

/**
 * Mean of the good frames of an entry with the noise of the mean.
 *
 * The noise follows the model of the session; it is never below that of the dark frames of this exposure, and warm
 * pixels have the noise of their dark current in addition. In an open or filtered scan, a pixel whose own frames
 * scatter far more than that has its own scatter as noise: a weak hit that no comparison can tell from light.
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
    variance[i] =
      Math.max(noise.readVariance, dark.frameVariance) +
      noise.gain * Math.max(0, counts[i]!) +
      Math.max(entry.excessVariance[i]!, noise.gain * dark.warmCounts[i]!);
  }
  // lit and dim pixels apart: the few lit pixels of a narrow band would not show among the dim ones
  const top = counts.reduce((best, value) => Math.max(best, value), 0);
  const lit = counts.map((value) => (value > litShare * top ? 1 : 0));
  const { excess, own } = excessScatter(entry, counts, masked, variance, lit);
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
      noise: of((i) => Math.max(excess[lit[i]!]!, own[i]!) * Math.sqrt(variance[i]! / used[i]!)),
      darkNoise: of((i) => dark.standardUncertainty[i]!),
      masked,
      wavelengthNm: frames.find((frame) => frame.scan.wavelengthNm !== null)?.scan.wavelengthNm ?? null,
    },
    raw,
    excess: Math.max(...excess),
  };
}

interface Scatter {
  /** Scatter over that of the model, in dim and in lit pixels; 1 or more. */
  readonly excess: readonly [number, number];
  /** The same for single pixels far beyond their fellows, else 0. */
  readonly own: Float64Array;
}

function excessScatter(
  entry: OpenedEntry,
  counts: Float64Array,
  masked: Uint8Array,
  variance: Float64Array,
  lit: Float64Array,
): Scatter {
  const { frames } = entry;
  const pixels = counts.length;
  const own = new Float64Array(pixels);
  if (frames.length < 2) return { excess: [1, 1], own };
  const weights = variance.map((value, i) => (masked[i] === 1 || !(value > 0) ? 0 : 1 / value));
  // the lines of a lamp warm up one by one: their levels are taken out piece by piece
  const isLamp = entry.entry.role === 'lamp';
  const piece = isLamp ? Math.min(lampPiecePixels, pixels) : pixels;
  const tilted = piece === pixels;
  const chiSquared = new Float64Array(pixels);
  const values = new Float64Array(pixels);
  /** Levels fitted in dim and in lit pixels. */
  const levels: [number, number] = [0, 0];
  for (const frame of frames) {
    const clean = frame.counts.slice();
    for (const i of frame.hits) clean[i] = Number.NaN;
    for (let from = 0; from < pixels; from += piece) {
      const to = Math.min(pixels, from + piece);
      const mean = counts.subarray(from, to);
      const { level, tilt } = levelRatio(clean.subarray(from, to), mean, weights.subarray(from, to), tilted);
      const seen: [number, number] = [0, 0];
      for (let i = from; i < to; i++) {
        if (weights[i] === 0 || Number.isNaN(clean[i]!)) continue;
        const x = (2 * (i - from)) / Math.max(1, to - from - 1) - 1;
        const difference = clean[i]! - (level + tilt * x) * counts[i]!;
        chiSquared[i] = chiSquared[i]! + difference ** 2 * weights[i]!;
        values[i] = values[i]! + 1;
        seen[lit[i] === 1 ? 1 : 0]++;
      }
      // the level is fitted to the lit pixels, where there are any
      if (seen[1] > 0) levels[1]++;
      else if (seen[0] > 0) levels[0]++;
    }
  }
  const fitted = (tilted ? 2 : 1) * (1 - 1 / frames.length);
  if (!isLamp) markOwn();
  return { excess: [scaleOfKind(0), scaleOfKind(1)], own };

  /** Single pixels far beyond their fellows keep out of the common scale. */
  function markOwn(): void {
    for (const kind of [0, 1] as const) {
      const members = pixelsOf(kind).filter((i) => values[i]! >= 2);
      if (members.length < fewestFellows) continue;
      const ratio = (i: number): number => chiSquared[i]! / (values[i]! - 1);
      const freedom = members.length * (frames.length - 1);
      const common = scaleOf(
        pooledVariance(members.map(ratio), frames.length - 1).variance * freedom,
        freedom,
      );
      for (const i of members) {
        const most = chiSquaredLimit(values[i]! - 1, ownDeviations) * common ** 2;
        if (ratio(i) > most) own[i] = Math.sqrt(ratio(i));
      }
    }
  }

  function pixelsOf(kind: 0 | 1): number[] {
    const members: number[] = [];
    for (let i = 0; i < pixels; i++) if (lit[i] === kind && values[i]! > 0) members.push(i);
    return members;
  }

  function scaleOfKind(kind: 0 | 1): number {
    let [sum, freedom] = [0, -levels[kind] * fitted];
    for (const i of pixelsOf(kind)) {
      if (own[i]! > 0) continue;
      sum += chiSquared[i]!;
      freedom += values[i]! * (1 - 1 / frames.length);
    }
    return scaleOf(sum, freedom);
  }
}

function scaleOf(chiSquared: number, freedom: number): number {
  if (freedom < 10) return 1;
  const reduced = chiSquared / freedom;
  const limit = 1 + modelTolerance + significantDeviations * Math.sqrt(2 / freedom);
  return reduced > limit ? Math.sqrt(reduced) : 1;
}
