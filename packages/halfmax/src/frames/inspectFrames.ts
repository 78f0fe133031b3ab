import { median } from '../numeric/median.js';
import { medianAbsoluteDeviation } from '../numeric/medianAbsoluteDeviation.js';
import { brightestCounts } from './brightestCounts.js';
import { findHits } from './findHits.js';
import { frameShift } from './frameShift.js';
import { medianFrame } from './medianFrame.js';
import type { FrameRole, NoiseModel } from './types.js';
import { percent, plainNumber } from './wording.js';

/** What was found in the frames of one entry. */
export interface Inspection {
  /** Frames left out, by index, with the reason in plain words. */
  readonly rejected: ReadonlyMap<number, string>;
  /** Pixels to be left out of a frame that is kept, by index. */
  readonly hits: ReadonlyMap<number, readonly number[]>;
  readonly warnings: readonly string[];
}

/** A lamp frame further off than this is left out, pixels. */
const shiftLimitPixels = 0.3;
/** Good frames that must stay before a struck frame is left out as a whole. */
const framesToStay = 3;

/**
 * Compares the frames of one entry with each other: moved, changed in level or shape, or struck by a particle.
 *
 * With two frames that disagree both are kept and a warning is given, since nothing says which is the good one;
 * a hit on a few pixels is told from the better frame all the same. A single frame cannot be checked.
 *
 * @param frames - counts above dark of the frames that show light; NaN where undefined
 * @param role - lamps are compared by their place, the open beam and filtered scans by level and shape
 * @param noise - variance of a pixel against its level
 * @param ownVariance - what single pixels have in addition, counts^2: unstable and warm ones
 * @returns frames and pixels to leave out
 * Source: limits (0.3 px, 5 %, 1 % with 8 standard deviations) are common practice, no source.
 */
export function inspectFrames(
  frames: readonly Float64Array[],
  role: FrameRole,
  noise: Pick<NoiseModel, 'readVariance' | 'gain'>,
  ownVariance?: Float64Array,
): Inspection {
  const rejected = new Map<number, string>();
  const warnings: string[] = [];
  if (frames.length < 2) return { rejected, hits: new Map(), warnings };
  const alive = (): number[] => frames.map((_, k) => k).filter((k) => !rejected.has(k));
  if (role === 'lamp') rejectMoved(frames, noise, rejected, warnings);
  else rejectChangedLevel(frames, noise, rejected, warnings);

  const compared = alive();
  const found = findHits(
    compared.map((k) => frames[k]!),
    noise,
    ownVariance,
  );
  const hits = new Map([...found].map(([at, pixels]) => [compared[at]!, pixels] as const));
  if (role !== 'lamp') {
    rejectChangedShape(frames, compared, hits, noise, rejected, warnings);
    for (const k of rejected.keys()) hits.delete(k);
  }
  if (alive().length - hits.size >= framesToStay) {
    for (const [k, pixels] of hits) rejected.set(k, struckReason(frames[k]!, pixels));
    hits.clear();
  }
  return { rejected, hits, warnings };
}

function struckReason(frame: Float64Array, pixels: readonly number[]): string {
  const worst = pixels.reduce((best, i) => (frame[i]! > frame[best]! ? i : best));
  return (
    `struck by a particle: ${pixels.length} pixel${pixels.length === 1 ? '' : 's'} far above the other frames, ` +
    `the highest (pixel ${worst}) at ${plainNumber(frame[worst]!)} counts`
  );
}

type Noise = Pick<NoiseModel, 'readVariance' | 'gain'>;

function rejectMoved(
  frames: readonly Float64Array[],
  noise: Noise,
  rejected: Map<number, string>,
  warnings: string[],
): void {
  const reference = frames.length === 2 ? frames[0]! : medianFrame(frames);
  const shifts = frames.map((frame) => {
    const variance = 2 * noise.readVariance + 2 * noise.gain * Math.max(0, meanOf(frame));
    const shift = frameShift(frame, reference, variance);
    return Math.abs(shift.shiftPixels) > 5 * shift.standardUncertainty ? shift.shiftPixels : 0;
  });
  const moved = shifts.map((_, k) => k).filter((k) => Math.abs(shifts[k]!) > shiftLimitPixels);
  if (moved.length === 0) return;
  if (2 * moved.length >= frames.length) {
    const range = Math.max(...shifts) - Math.min(...shifts);
    warnings.push(
      `frames lie up to ${plainNumber(range, 2)} pixels apart and none of the places has the majority: all kept`,
    );
    return;
  }
  for (const k of moved) {
    rejected.set(k, `moved by ${plainNumber(shifts[k]!, 2)} pixels against the other frames`);
  }
}

function meanOf(frame: Float64Array): number {
  let sum = 0;
  for (const value of frame) if (!Number.isNaN(value)) sum += value;
  return sum / frame.length;
}

/** Pixels of the bright part of a reference: above a share of its brightest place. */
function brightPixels(reference: Float64Array, share: number): number[] {
  const limit = share * brightestCounts(reference);
  const out: number[] = [];
  for (let i = 0; i < reference.length; i++) if (reference[i]! > limit && limit > 0) out.push(i);
  return out;
}

/** Level of a frame: the median ratio over the bright pixels, and its standard uncertainty from noise. */
function levelOf(
  frame: Float64Array,
  reference: Float64Array,
  bright: readonly number[],
  noise: Noise,
): number[] {
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

function rejectChangedLevel(
  frames: readonly Float64Array[],
  noise: Noise,
  rejected: Map<number, string>,
  warnings: string[],
): void {
  const reference = medianFrame(frames);
  const bright = brightPixels(reference, 0.5);
  if (bright.length === 0) return;
  const measured = frames.map((frame) => levelOf(frame, reference, bright, noise));
  const levels = measured.map(([level]) => level!);
  const own = Math.max(...measured.map(([, uncertainty]) => uncertainty!));
  if (frames.length === 2) {
    const difference = Math.abs(levels[0]! / levels[1]! - 1);
    if (difference > 0.05) {
      warnings.push(
        `the two frames differ by ${percent(difference)} in level; nothing says which is right: both kept`,
      );
    }
    return;
  }
  for (;;) {
    const alive = levels.map((_, k) => k).filter((k) => !rejected.has(k));
    if (alive.length < 3) return;
    let worst = -1;
    let worstDeviation = 0;
    let worstLevel = 0;
    for (const k of alive) {
      const fellows = alive.filter((j) => j !== k).map((j) => levels[j]!);
      const middle = median(fellows);
      const range = Math.max(...fellows) - Math.min(...fellows);
      const spread = Math.max(own, fellows.length < 4 ? range / 2 : medianAbsoluteDeviation(fellows));
      const deviation = Math.abs(levels[k]! / middle - 1);
      const off =
        (deviation > 0.05 && deviation > 4 * spread) || (deviation > 0.01 && deviation > 8 * spread);
      if (off && deviation > worstDeviation) {
        worst = k;
        worstDeviation = deviation;
        worstLevel = levels[k]! / middle;
      }
    }
    if (worst < 0) break;
    const side = worstLevel > 1 ? 'above' : 'below';
    rejected.set(worst, `its level is ${percent(worstDeviation)} ${side} that of the other frames`);
  }
  const rest = levels.filter((_, k) => !rejected.has(k));
  const range = Math.max(...rest) / Math.min(...rest) - 1;
  if (range > 0.05) warnings.push(`the level wanders by ${percent(range)} between the frames: all kept`);
}

function rejectChangedShape(
  frames: readonly Float64Array[],
  compared: readonly number[],
  hits: ReadonlyMap<number, readonly number[]>,
  noise: Noise,
  rejected: Map<number, string>,
  warnings: string[],
): void {
  if (compared.length < 2) return;
  const cleaned = compared.map((k) => {
    const copy = frames[k]!.slice();
    for (const i of hits.get(k) ?? []) copy[i] = Number.NaN;
    return copy;
  });
  const reference = medianFrame(cleaned);
  const bright = brightPixels(reference, 0.5);
  const seen = brightPixels(reference, 0.1);
  if (bright.length === 0) return;
  const distances = cleaned.map((frame) => {
    const [level] = levelOf(frame, reference, bright, noise);
    let difference = 0;
    let light = 0;
    for (const i of seen) {
      if (Number.isNaN(frame[i]!)) continue;
      difference += Math.abs(frame[i]! / level! - reference[i]!);
      light += reference[i]!;
    }
    return light > 0 ? difference / light : 0;
  });
  let expected = 0;
  let light = 0;
  for (const i of seen) {
    expected += 0.8 * Math.sqrt(noise.readVariance + noise.gain * reference[i]!);
    light += reference[i]!;
  }
  expected /= light;
  if (compared.length === 2) {
    const distance = 2 * Math.max(...distances);
    if (distance > 0.02 && distance > 8 * expected) {
      warnings.push(
        `the two frames differ by ${percent(distance)} in shape; nothing says which is right: both kept`,
      );
    }
    return;
  }
  compared.forEach((k, at) => {
    const fellows = median(distances.filter((_, j) => j !== at));
    const distance = distances[at]!;
    if (distance > 0.01 && distance > 4 * Math.max(expected, fellows)) {
      rejected.set(
        k,
        `moved or changed: its shape differs by ${percent(distance)} from that of the other frames`,
      );
    }
  });
}
