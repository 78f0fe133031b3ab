import { median } from '../numeric/median.js';
import { medianAbsoluteDeviation } from '../numeric/medianAbsoluteDeviation.js';
import { brightPixels, frameLevel, type LevelNoise } from './frameLevel.js';
import { medianFrame } from './medianFrame.js';
import { percent } from './wording.js';

/**
 * Leaves out frames that are brighter or fainter than their fellows.
 *
 * @param frames - counts above dark, NaN where undefined
 * @param noise - variance of a pixel against its level
 * @param rejected - gets the frames left out, by index, with the reason
 * @param warnings - gets a sentence where nothing says which frame is right
 */
export function rejectChangedLevel(
  frames: readonly Float64Array[],
  noise: LevelNoise,
  rejected: Map<number, string>,
  warnings: string[],
): void {
  const reference = medianFrame(frames);
  const bright = brightPixels(reference, 0.5);
  if (bright.length === 0) return;
  const measured = frames.map((frame) => frameLevel(frame, reference, bright, noise));
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
