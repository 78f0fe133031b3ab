import { median } from '../numeric/median.js';
import { brightestCounts } from './brightestCounts.js';
import type { NoiseModel } from './types.js';

/** Variance of a pixel against its level. */
export type LevelNoise = Pick<NoiseModel, 'readVariance' | 'gain'>;

/**
 * Pixels of the bright part of a reference.
 *
 * @param reference - counts
 * @param share - of its brightest place, above which a pixel is bright
 * @returns their indices
 */
export function brightPixels(reference: Float64Array, share: number): number[] {
  const limit = share * brightestCounts(reference);
  const out: number[] = [];
  for (let i = 0; i < reference.length; i++) if (reference[i]! > limit && limit > 0) out.push(i);
  return out;
}

/**
 * Level of a frame: the median ratio over the bright pixels.
 *
 * @param frame - counts, NaN where undefined
 * @param reference - counts
 * @param bright - pixels to be compared
 * @param noise - of a pixel
 * @returns level and its standard uncertainty from noise
 */
export function frameLevel(
  frame: Float64Array,
  reference: Float64Array,
  bright: readonly number[],
  noise: LevelNoise,
): [level: number, standardUncertainty: number] {
  const ratios: number[] = [];
  let relative = 0;
  for (const i of bright) {
    if (Number.isNaN(frame[i]!)) continue;
    ratios.push(frame[i]! / reference[i]!);
    relative += Math.sqrt(noise.readVariance + noise.gain * reference[i]!) / reference[i]!;
  }
  if (ratios.length === 0) return [1, Number.POSITIVE_INFINITY];
  return [median(ratios), (1.25 * relative) / ratios.length ** 1.5];
}
