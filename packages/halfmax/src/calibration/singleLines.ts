import type { NamedLine } from './nameLines.js';

/** A line stands alone when no other found line is nearer than this many widths. */
const ALONE_WIDTHS = 2.5;
/** Lines below this height over noise say little of a shape. */
const LEAST_SIGNIFICANCE = 40;

/** Trusted lines that stand alone and clear of the noise, clearest first. */
export function singleLines(named: readonly NamedLine[]): NamedLine[] {
  return named
    .filter(
      ({ found, known, trouble }) =>
        trouble === null &&
        known !== null &&
        found.significance >= LEAST_SIGNIFICANCE &&
        found.nearestPixels >= ALONE_WIDTHS * found.fwhmPixels,
    )
    .sort((a, b) => b.found.significance - a.found.significance);
}
