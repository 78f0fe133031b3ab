import type { FrameEntry } from './types.js';
import { plainNumber } from './wording.js';

/** So many neighbouring pixels at exactly the highest count of the session are clipped. */
const plateauPixels = 3;
/** The highest count must be so many times as frequent as the next lower one: a smooth top reaches 2.4. */
const overNext = 4;

/** A level at which the converter cuts the light off. */
export interface Ceiling {
  /** Raw counts. */
  readonly counts: number;
  /** Frames that hold a plateau, and the file of the first of them. */
  readonly frames: number;
  readonly file: string;
  /** Pixels of the longest plateau. */
  readonly pixels: number;
  /** What to tell the reader. */
  readonly what: string;
}

/**
 * The level at which the converter clips, as the frames themselves show it: neighbouring pixels that all stand at
 * exactly the highest count of the session, which is far more frequent than the next lower one. Light with noise
 * thins out towards its highest count; light that is cut off piles up there.
 *
 * @param entries - frames of any role; darks are passed over
 * @param saturationCounts - the level that the session states; a ceiling at or above it says nothing new
 * @returns the ceiling, or null where there is none below the level stated
 * Source: hard clipping at a round count in some units, soft in others (open measured data). A rounded parabola is
 * flat over its highest count at most 1 / (sqrt(2) - 1) = 2.4 times as long as over the next one; the limits are common
 * practice, no source. Cost: O(values).
 */
export function findCeiling(entries: readonly FrameEntry[], saturationCounts: number): Ceiling | null {
  const scans = entries.flatMap((entry) => (entry.role === 'dark' ? [] : entry.scans));
  let highest = Number.NEGATIVE_INFINITY;
  for (const { counts } of scans) for (const value of counts) if (value > highest) highest = value;
  if (!(highest < saturationCounts)) return null;
  let next = Number.NEGATIVE_INFINITY;
  let atHighest = 0;
  let pixels = 0;
  let frames = 0;
  let file = '';
  for (const scan of scans) {
    let run = 0;
    let longest = 0;
    for (const value of scan.counts) {
      if (value === highest) {
        atHighest++;
        run++;
        longest = Math.max(longest, run);
        continue;
      }
      run = 0;
      if (value > next) next = value;
    }
    if (longest < plateauPixels) continue;
    if (frames === 0) file = scan.file;
    frames++;
    pixels = Math.max(pixels, longest);
  }
  if (frames === 0) return null;
  let atNext = 0;
  for (const { counts } of scans) for (const value of counts) if (value === next) atNext++;
  if (atHighest < overNext * Math.max(1, atNext)) return null;
  return { counts: highest, frames, file, pixels, what: wordsOf(highest) };

  function wordsOf(level: number): string {
    const where = frames === 1 ? 'one frame' : `${frames} frames`;
    return (
      `up to ${pixels} neighbouring pixels stand at exactly ${plainNumber(level, 6)} counts in ${where} ` +
      `(the first is ${file}): the light is cut off there, below the ${plainNumber(saturationCounts, 6)} that ` +
      `detector.saturationCounts states; ${plainNumber(level, 6)} is used`
    );
  }
}
