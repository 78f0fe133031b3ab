import { findHits } from './findHits.js';
import { rejectChangedLevel } from './rejectChangedLevel.js';
import { rejectChangedShape } from './rejectChangedShape.js';
import { rejectMoved } from './rejectMoved.js';
import type { FrameRole, NoiseModel } from './types.js';
import { plainNumber } from './wording.js';

/** What was found in the frames of one entry. */
export interface Inspection {
  /** Frames left out, by index, with the reason in plain words. */
  readonly rejected: ReadonlyMap<number, string>;
  /** Pixels to be left out of a frame that is kept, by index. */
  readonly hits: ReadonlyMap<number, readonly number[]>;
  readonly warnings: readonly string[];
}

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
