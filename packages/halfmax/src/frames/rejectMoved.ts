import type { LevelNoise } from './frameLevel.js';
import { frameShift } from './frameShift.js';
import { medianFrame } from './medianFrame.js';
import { plainNumber } from './wording.js';

/** A lamp frame further off than this is left out, pixels. */
const shiftLimitPixels = 0.3;

/**
 * Leaves out frames of a lamp whose lines lie elsewhere.
 *
 * @param frames - counts above dark, NaN where undefined
 * @param noise - variance of a pixel against its level
 * @param rejected - gets the frames left out, by index, with the reason
 * @param warnings - gets a sentence where nothing says which frame is right
 */
export function rejectMoved(
  frames: readonly Float64Array[],
  noise: LevelNoise,
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
