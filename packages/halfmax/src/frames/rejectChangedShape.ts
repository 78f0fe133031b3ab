import { median } from '../numeric/median.js';
import { brightPixels, frameLevel, type LevelNoise } from './frameLevel.js';
import { medianFrame } from './medianFrame.js';
import { percent } from './wording.js';

/**
 * Leaves out frames whose spectrum has another shape than that of their fellows.
 *
 * @param frames - counts above dark, NaN where undefined
 * @param compared - frames to be compared, by index
 * @param hits - pixels to be left out of a frame, by index
 * @param noise - variance of a pixel against its level
 * @param rejected - gets the frames left out, by index, with the reason
 * @param warnings - gets a sentence where nothing says which frame is right
 */
export function rejectChangedShape(
  frames: readonly Float64Array[],
  compared: readonly number[],
  hits: ReadonlyMap<number, readonly number[]>,
  noise: LevelNoise,
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
    const [level] = frameLevel(frame, reference, bright, noise);
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
