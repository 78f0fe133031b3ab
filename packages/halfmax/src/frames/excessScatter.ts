import { levelRatio } from './levelRatio.js';
import type { OpenedEntry } from './openEntry.js';
import { chiSquaredLimit, pooledVariance } from './pooledVariance.js';

/** Scatter must exceed the model by this many standard deviations of chi-squared to be scaled up. */
const significantDeviations = 5;
/** What the noise model itself may be off, relative variance. */
const modelTolerance = 0.05;
/** A single pixel has its own scatter as noise beyond so many standard deviations of chi-squared: 3 in a million. */
const ownDeviations = 4.5;
/** Pixels that tell what scatter is common to them. */
const fewestFellows = 10;
/** Length of the pieces in which the level of a lamp frame is taken out, pixels. */
const lampPiecePixels = 32;

/** Scatter of an entry's frames over what the noise model allows. */
export interface Scatter {
  /** Scatter over that of the model, in dim and in lit pixels; 1 or more. */
  readonly excess: readonly [number, number];
  /** The same for single pixels far beyond their fellows, else 0. */
  readonly own: Float64Array;
}

/**
 * Scatter of the frames of an entry about their mean, the level of each frame taken out, over that of the model.
 *
 * @param entry - frames above dark
 * @param counts - their mean
 * @param masked - 1 where the mean is not to be used
 * @param variance - of one frame by the model, counts^2
 * @param lit - 1 for bright pixels, 0 for dim ones
 * @returns the scatter in dim and lit pixels, and that of single pixels far beyond their fellows
 */
export function excessScatter(
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
