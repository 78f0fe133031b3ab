import { darkAt } from './darkAt.js';
import { entryName } from './entryName.js';
import { inspectFrames } from './inspectFrames.js';
import type { NoiseEstimate } from './noiseLine.js';
import type { OpenedEntry } from './openEntry.js';
import type { DarkStack } from './stackDarks.js';
import type { RejectedScan, Warning } from './types.js';

/** Entries without their bad frames. */
export interface GoodFrames {
  readonly good: readonly OpenedEntry[];
  readonly rejected: readonly RejectedScan[];
  readonly warnings: readonly Warning[];
}

/**
 * Leaves out the frames that do not belong to their entry, and the pixels that a particle struck.
 *
 * @param opened - entries, dark taken off
 * @param stacks - the darks, for the noise of warm pixels
 * @param noise - a first model of the noise
 * @returns the entries in their order, frames left out with reasons, warnings
 */
export function dropBadFrames(
  opened: readonly OpenedEntry[],
  stacks: readonly DarkStack[],
  noise: NoiseEstimate,
): GoodFrames {
  const rejected: RejectedScan[] = [];
  const warnings: Warning[] = [];
  const good = opened.map((entry) => {
    const { warmCounts } = darkAt(stacks, entry.entry.exposureMs, 0);
    const found = inspectFrames(
      entry.frames.map((frame) => frame.compared),
      entry.entry.role,
      noise,
      entry.excessVariance.map((value, i) => Math.max(value, noise.gain * warmCounts[i]!)),
    );
    for (const [k, reason] of found.rejected) {
      const { file, column } = entry.frames[k]!.scan;
      rejected.push({ file, column, reason });
    }
    for (const what of found.warnings) warnings.push({ where: entryName(entry.entry), what });
    for (const [k, pixels] of found.hits) {
      const named = pixels.slice(0, 8).join(', ') + (pixels.length > 8 ? ', ...' : '');
      warnings.push({
        where: entry.frames[k]!.scan.file,
        what: `struck by a particle at pixel ${named}: those pixels of the frame are left out`,
      });
    }
    const frames = entry.frames.map((frame, k) => ({ ...frame, hits: found.hits.get(k) ?? [] }));
    return { ...entry, frames: frames.filter((_, k) => !found.rejected.has(k)) };
  });
  return { good, rejected, warnings };
}
