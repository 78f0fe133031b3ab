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
    const around = [t[i - 2]!, t[i + 2]!];
    if (i >= 3) around.push(t[i - 3]!);
    if (i < n - 3) around.push(t[i + 3]!);
    around.sort((a, b) => a - b);
    const middle = around.length >> 1;
    const base = around.length % 2 === 1 ? around[middle]! : (around[middle - 1]! + around[middle]!) / 2;
    const excess = Math.abs(t[i]! - base);
    const neighbours = Math.max(Math.abs(t[i - 1]! - base), Math.abs(t[i + 1]! - base));
    const noise = Math.max(u[i]!, u[i - 1]!, u[i + 1]!);
    if (excess > Math.max(8 * noise, 0.02) && neighbours < 0.35 * excess) trust[i] = 0;
  }
  return trust;
}
