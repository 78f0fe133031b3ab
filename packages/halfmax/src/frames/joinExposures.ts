import { groupByExposure } from './groupByExposure.js';
import type { CleanSpectrum } from './types.js';

/** Several exposures of one scan joined, noise and dark apart. */
export interface JoinedExposures {
  readonly countsPerMs: Float64Array;
  /** Standard uncertainty from the noise of the frames, counts per ms. */
  readonly noisePerMs: Float64Array;
  /** Standard uncertainty from the dark, counts per ms. */
  readonly darkPerMs: Float64Array;
  /** Of the dark, what all pixels share: standard uncertainty with its sign, counts per ms. */
  readonly sharedPerMs: Float64Array;
  readonly masked: Uint8Array;
  /** The exposure used in each pixel, ms; 0 where masked. */
  readonly exposureMs: Float64Array;
  /** Counts above dark in the exposure used. */
  readonly counts: Float64Array;
}

/**
 * Joins several exposures pixel by pixel, by {@link chooseExposure}; entries of the same exposure are averaged by
 * their number of frames, and the dark they share is counted as shared.
 *
 * @param spectra - entries of the same light, at least one, of equal length
 * @returns rates per pixel
 */
export function joinExposures(spectra: readonly CleanSpectrum[]): JoinedExposures {
  const groups = groupByExposure(spectra);
  const pixels = spectra[0]!.counts.length;
  const joined = {
    countsPerMs: new Float64Array(pixels),
    noisePerMs: new Float64Array(pixels),
    darkPerMs: new Float64Array(pixels),
    sharedPerMs: new Float64Array(pixels),
    masked: new Uint8Array(pixels).fill(1),
    exposureMs: new Float64Array(pixels),
    counts: new Float64Array(pixels),
  };
  for (let i = 0; i < pixels; i++) {
    const group = chooseExposure(groups, i);
    if (group === null) continue;
    let frames = 0;
    let sum = 0;
    let noise = 0;
    let dark = 0;
    let shared = 0;
    for (const spectrum of group) {
      if (spectrum.masked[i] === 1) continue;
      frames += spectrum.frames;
      sum += spectrum.frames * spectrum.counts[i]!;
      noise += (spectrum.frames * spectrum.noise[i]!) ** 2;
      dark += spectrum.frames * spectrum.darkNoise[i]!;
      shared += spectrum.frames * (spectrum.darkShared?.[i] ?? 0);
    }
    const exposure = group[0]!.exposureMs;
    joined.masked[i] = 0;
    joined.exposureMs[i] = exposure;
    joined.counts[i] = sum / frames;
    joined.countsPerMs[i] = sum / frames / exposure;
    joined.noisePerMs[i] = Math.sqrt(noise) / frames / exposure;
    joined.darkPerMs[i] = dark / frames / exposure;
    joined.sharedPerMs[i] = shared / frames / exposure;
  }
  return joined;
}

/**
 * The exposure to use in a pixel: the longest in which neither it nor its direct neighbour is clipped, or, where no
 * exposure keeps that margin, the longest in which it is unclipped itself.
 *
 * @param groups - spectra by exposure, the longest first
 * @param pixel - index
 * @returns the spectra of that exposure, or null where all are clipped
 * Source: longest unclipped exposure per pixel is common practice, no source.
 */
export function chooseExposure(
  groups: readonly (readonly CleanSpectrum[])[],
  pixel: number,
): readonly CleanSpectrum[] | null {
  let second: readonly CleanSpectrum[] | null = null;
  for (const group of groups) {
    if (!isClear(group, pixel)) continue;
    const last = group[0]!.counts.length - 1;
    if (isClear(group, Math.max(0, pixel - 1)) && isClear(group, Math.min(last, pixel + 1))) return group;
    second ??= group;
  }
  return second;
}

function isClear(group: readonly CleanSpectrum[], pixel: number): boolean {
  for (const spectrum of group) if (spectrum.masked[pixel] === 0) return true;
  return false;
}
