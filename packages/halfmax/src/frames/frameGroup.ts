import type { FrameGroup } from './levelSamples.js';
import type { OpenedEntry } from './openEntry.js';

/**
 * An entry's frames as the noise is estimated from.
 *
 * @param entry - frames above dark
 * @returns counts of each frame, NaN where saturated, undefined or struck
 */
export function frameGroup(entry: OpenedEntry): FrameGroup {
  return {
    frames: entry.frames.map((frame) => {
      const counts = frame.counts.slice();
      for (let i = 0; i < counts.length; i++) if (frame.masked[i] === 1) counts[i] = Number.NaN;
      for (const i of frame.hits) counts[i] = Number.NaN;
      return counts;
    }),
    excessVariance: entry.excessVariance,
    smooth: entry.entry.role === 'open',
    lines: entry.entry.role === 'lamp',
  };
}
