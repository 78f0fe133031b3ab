import type { FrameEntry } from './types.js';

/**
 * Variance that the rounding of counts in the files adds: a twelfth of the square of the smallest step between values.
 *
 * @param entries - raw frames; the first of each entry is looked at
 * @returns counts^2; next to nothing where counts are not rounded
 * Source: rectangular distribution of the width of a digit, JCGM 100:2008, F.2.2.1.
 */
export function resolutionVariance(entries: readonly FrameEntry[]): number {
  let step = Number.POSITIVE_INFINITY;
  for (const entry of entries) {
    const sorted = entry.scans[0]!.counts.slice().sort();
    for (let i = 1; i < sorted.length; i++) {
      const gap = sorted[i]! - sorted[i - 1]!;
      if (gap > 0 && gap < step) step = gap;
    }
  }
  return Number.isFinite(step) ? (step * step) / 12 : 0;
}
