import { median, quantile } from '../numeric/index.js';

/**
 * The ground under the lines of a lamp: lower quartile by blocks, joined by straight lines.
 *
 * @param counts - of the spectrum
 * @param blockLength - pixels, far more than a line's width
 * @returns the ground at each pixel
 */
export function lampGround(counts: Float64Array, blockLength: number): Float64Array {
  const pixels = counts.length;
  const blocks = Math.max(2, Math.round(pixels / blockLength));
  const centres: number[] = [];
  const levels: number[] = [];
  for (let b = 0; b < blocks; b++) {
    const from = Math.floor((b * pixels) / blocks);
    const to = Math.floor(((b + 1) * pixels) / blocks);
    centres.push((from + to - 1) / 2);
    levels.push(quantile(counts.subarray(from, to), 0.25));
  }
  const calm = levels.map((level, b) => Math.min(level, median(levels.slice(Math.max(0, b - 2), b + 3))));
  const out = new Float64Array(pixels);
  for (let i = 0, b = 0; i < pixels; i++) {
    while (b < blocks - 2 && i > centres[b + 1]!) b++;
    const share = Math.min(1, Math.max(0, (i - centres[b]!) / (centres[b + 1]! - centres[b]!)));
    out[i] = calm[b]! * (1 - share) + calm[b + 1]! * share;
  }
  return out;
}
