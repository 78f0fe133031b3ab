import { median } from '../numeric/median.js';
import { brightestCounts } from './brightestCounts.js';
import { percent, plainNumber } from './wording.js';

/** A frame with less light than this share of its fellows is unlit. */
const unlitShare = 0.2;
/** Light this many standard deviations above the dark is light: the brightest of 2048 places of noise reaches 3. */
const litDeviations = 5;

/** Which frames of an entry show no light. */
export interface UnlitFrames {
  /** By index, the reason in plain words. */
  readonly unlit: ReadonlyMap<number, string>;
  /** True when not even the frames together show light above the dark. */
  readonly nothing: boolean;
}

/**
 * Frames with no light, or far less than their fellows: lamp off, shutter closed.
 *
 * Looks at the brightest place of each frame only, as narrow filters and lamps leave most pixels dark.
 *
 * @param frames - counts above dark of one entry, saturated pixels at their clipped value
 * @param variance - variance of a pixel without light, one frame, counts^2
 * @param darkUncertainty - standard uncertainty of the dark taken off, counts
 * @returns unlit frames; where nothing is lit the map is empty
 * Source: limits (20 %, 5 standard deviations) are common practice, no source.
 */
export function findUnlit(
  frames: readonly Float64Array[],
  variance: number,
  darkUncertainty: number,
): UnlitFrames {
  const unlit = new Map<number, string>();
  const brightness = frames.map(brightestCounts);
  const top = Math.max(...brightness);
  const one = litDeviations * Math.sqrt(variance + darkUncertainty ** 2);
  const together = litDeviations * Math.sqrt(variance / frames.length + darkUncertainty ** 2);
  if (!(top > one) && !(brightestCounts(meanFrame(frames)) > together)) return { unlit, nothing: true };
  frames.forEach((_, k) => {
    if (frames.length < 2) return;
    const own = brightness[k]!;
    const fellows = median(brightness.filter((_, j) => j !== k));
    const far = own < unlitShare * fellows && fellows > one;
    const dark = own < one && own < unlitShare * top;
    if (!far && !dark) return;
    const against = far ? fellows : top;
    const share = percent(Math.max(0, own) / against);
    unlit.set(
      k,
      `unlit: its brightest pixels hold ${plainNumber(Math.max(0, own))} counts above the dark, ` +
        `${share} of the ${plainNumber(against)} of ${far ? 'the other frames' : 'the brightest frame'}`,
    );
  });
  return { unlit, nothing: false };
}

function meanFrame(frames: readonly Float64Array[]): Float64Array {
  return Float64Array.from(frames[0]!, (_, i) => {
    let sum = 0;
    for (const frame of frames) sum += frame[i]!;
    return sum / frames.length;
  });
}
