import type { Curve } from './types.js';

/**
 * Which pixels to trust: 0 for a single pixel that stands alone far above or below its surroundings.
 *
 * The line spread of any spectrometer covers two pixels or more, so light that truly passed the filter
 * reaches at least a third of a pixel's excess in one of its neighbours; a hot or dead pixel does not.
 *
 * @param curve - the curve
 * @returns one weight per pixel, 1 trusted, 0 left out
 * Cost: O(n).
 */
export function trustedPixels(curve: Curve): Float64Array {
  const { transmittance: t, standardUncertainty: u } = curve;
  const n = t.length;
  const trust = new Float64Array(n).fill(1);
  for (let i = 2; i < n - 2; i++) {
    const base = medianBeside(t, i);
    const excess = Math.abs(t[i]! - base);
    const neighbours = Math.max(Math.abs(t[i - 1]! - base), Math.abs(t[i + 1]! - base));
    const noise = Math.max(u[i]!, u[i - 1]!, u[i + 1]!);
    if (excess > Math.max(8 * noise, 0.02) && neighbours < 0.35 * excess) trust[i] = 0;
  }
  return trust;
}

/** Median of the pixels two and three away, as far as there are such. */
function medianBeside(t: Float64Array, i: number): number {
  const a = t[i - 2]!;
  const b = t[i + 2]!;
  const low = Math.min(a, b);
  const high = Math.max(a, b);
  const before = i >= 3;
  const after = i < t.length - 3;
  if (before && after) {
    const c = t[i - 3]!;
    const d = t[i + 3]!;
    return (Math.max(low, Math.min(c, d)) + Math.min(high, Math.max(c, d))) / 2;
  }
  if (!before && !after) return (a + b) / 2;
  return Math.max(low, Math.min(high, before ? t[i - 3]! : t[i + 3]!));
}
