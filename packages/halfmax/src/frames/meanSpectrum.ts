import type { DarkLevel } from './darkAt.js';
import { excessScatter } from './excessScatter.js';
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

/** Pixels above this share of the brightest one are judged apart from the others. */
const litShare = 0.1;

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
      ...(dark.shared === null ? {} : { darkShared: of((i) => dark.shared![i]!) }),
      masked,
      wavelengthNm: frames.find((frame) => frame.scan.wavelengthNm !== null)?.scan.wavelengthNm ?? null,
    },
    raw,
    excess: Math.max(...excess),
  };
}
