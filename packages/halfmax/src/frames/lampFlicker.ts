import { levelRatio } from './levelRatio.js';
import type { NoiseModel } from './types.js';

/** Level changes from frame to frame that all pixels share. */
export interface Flicker {
  /** Standard deviation of the level of one frame, relative. */
  readonly relative: number;
  /** Degrees of freedom behind it: frames less two of each entry, fewer where entries differ in weight. */
  readonly frames: number;
}

/** Good frames of one open or filtered entry in the order in which they were taken. */
export interface FlickerEntry {
  /** Counts above dark; NaN where saturated, undefined or hit. */
  readonly frames: readonly Float64Array[];
  /** Place of each frame in the entry: frames left out leave a gap. */
  readonly places: readonly number[];
  /** Mean of the frames. */
  readonly mean: Float64Array;
  /** 1 where the mean is not to be used. */
  readonly masked: Uint8Array;
}

interface LevelVariance {
  readonly observed: number;
  readonly noise: number;
  readonly freedom: number;
}

/** Rounds of weights that hang on the result. */
const rounds = 30;

/**
 * Flicker of the lamp between frames, from the levels of the frames of each entry: their variance about a straight
 * line in time less what the noise of the pixels gives, pooled over the entries.
 *
 * @param entries - open and filtered entries; those with fewer than three frames or without light are passed over
 * @param noise - variance of a pixel against its level
 * @returns flicker, 0 or more; null where no entry shows it
 * Source: variance components from mean squares, as in the analysis of variance of JCGM 100:2008, H.5; the
 * straight line is common practice, no source.
 */
export function lampFlicker(
  entries: readonly FlickerEntry[],
  noise: Pick<NoiseModel, 'readVariance' | 'gain'>,
): Flicker | null {
  const found = entries.flatMap((entry) => levelVariance(entry, noise));
  if (found.length === 0) return null;
  let variance = 0;
  let freedom = 0;
  for (let round = 0; round < rounds; round++) {
    let [sum, weighted, squares] = [0, 0, 0];
    for (const { observed, noise: own, freedom: n } of found) {
      const weight = n / (variance + own + Number.MIN_VALUE) ** 2;
      sum += weight;
      weighted += weight * (observed - own);
      squares += (weight * weight) / n;
    }
    if (!Number.isFinite(sum)) return withoutNoise(found);
    variance = Math.max(0, weighted / sum);
    freedom = (sum * sum) / squares;
  }
  return { relative: Math.sqrt(variance), frames: Math.max(1, Math.round(freedom)) };
}

function withoutNoise(found: readonly LevelVariance[]): Flicker {
  let [sum, freedom] = [0, 0];
  for (const entry of found) {
    sum += entry.freedom * Math.max(0, entry.observed - entry.noise);
    freedom += entry.freedom;
  }
  return { relative: Math.sqrt(sum / freedom), frames: freedom };
}

function levelVariance(
  entry: FlickerEntry,
  noise: Pick<NoiseModel, 'readVariance' | 'gain'>,
): LevelVariance[] {
  const { frames, places, mean, masked } = entry;
  const n = frames.length;
  if (n < 3) return [];
  const weights = mean.map((value, i) =>
    masked[i] === 1 || !(value > 0) ? 0 : 1 / (noise.readVariance + noise.gain * value + Number.MIN_VALUE),
  );
  let light = 0;
  for (let i = 0; i < mean.length; i++) light += weights[i]! * mean[i]! ** 2;
  if (!(light > 0)) return [];
  const levels = frames.map((frame) => levelRatio(frame, mean, weights, false).level);
  return [{ observed: varianceAboutLine(places, levels), noise: 1 / light, freedom: n - 2 }];
}

function varianceAboutLine(x: readonly number[], y: readonly number[]): number {
  const n = x.length;
  const meanX = x.reduce((sum, value) => sum + value, 0) / n;
  const meanY = y.reduce((sum, value) => sum + value, 0) / n;
  let [xx, xy, yy] = [0, 0, 0];
  for (let k = 0; k < n; k++) {
    xx += (x[k]! - meanX) ** 2;
    xy += (x[k]! - meanX) * (y[k]! - meanY);
    yy += (y[k]! - meanY) ** 2;
  }
  return Math.max(0, yy - xy ** 2 / xx) / meanY ** 2 / (n - 2);
}
