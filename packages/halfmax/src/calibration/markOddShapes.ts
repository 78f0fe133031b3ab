import { median } from '../numeric/index.js';
import type { FoundLine } from './types.js';

/** A single hot pixel, or a hit on two, is fitted as narrower than this, pixels. */
const HOT_PIXEL_WIDTH = 2.2;

/**
 * Marks lines whose width or symmetry stands apart from their fellows'.
 *
 * @param lines - as fitted
 * @returns the same, with `trouble` where there is some
 */
export function markOddShapes(lines: readonly FoundLine[]): FoundLine[] {
  const clean = lines.filter((line) => line.trouble === null && line.significance > 20);
  if (clean.length < 4) return [...lines];
  const skewness = median(clean.map((line) => line.skewness));
  return lines.map((line) => {
    if (line.trouble !== null) return line;
    const nearby = [...clean].sort((a, b) => Math.abs(a.pixel - line.pixel) - Math.abs(b.pixel - line.pixel));
    const usual = median(nearby.slice(0, 7).map((other) => other.fwhmPixels));
    const excess = line.fwhmPixels - usual;
    const excessUncertainty = Math.hypot(line.fwhmUncertaintyPixels, 0.03 * usual);
    if (line.fwhmPixels < HOT_PIXEL_WIDTH && excess < -0.4 * usual && excess < -4 * excessUncertainty) {
      return { ...line, trouble: 'narrower than the line spread: a hot pixel or a hit' };
    }
    if (excess > 0.15 * usual && excess > 5 * excessUncertainty) {
      return { ...line, trouble: 'broader than its neighbours: a blend' };
    }
    const skewed = Math.abs(line.skewness - skewness);
    if (skewed > 0.3 && skewed > 5 * line.skewnessUncertainty) {
      return { ...line, trouble: 'asymmetric: a blend or a flawed line' };
    }
    return line;
  });
}
