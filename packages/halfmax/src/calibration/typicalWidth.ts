import { quantile } from '../numeric/index.js';

/**
 * Full width at half height of the clearest single lines.
 *
 * @param counts - of the spectrum
 * @param ground - from `lampGround`
 * @param masked - 1 where a pixel is not to be used
 * @param noise - standard uncertainty of each pixel
 * @returns pixels, or null where no line is clear
 */
export function typicalWidth(
  counts: Float64Array,
  ground: Float64Array,
  masked: Uint8Array,
  noise: Float64Array,
): number | null {
  const pixels = counts.length;
  const candidates: { height: number; width: number }[] = [];
  for (let i = 2; i < pixels - 2; i++) {
    const height = counts[i]! - ground[i]!;
    if (height < 15 * noise[i]! || masked[i] || counts[i]! < counts[i - 1]! || counts[i]! <= counts[i + 1]!)
      continue;
    let left = i;
    let right = i;
    while (left > 0 && counts[left]! - ground[i]! > height / 2) left--;
    while (right < pixels - 1 && counts[right]! - ground[i]! > height / 2) right++;
    if (anyMasked(masked, left - 1, right + 1)) continue;
    const leftAt = left + (height / 2 + ground[i]! - counts[left]!) / (counts[left + 1]! - counts[left]!);
    const rightAt =
      right - (height / 2 + ground[i]! - counts[right]!) / (counts[right - 1]! - counts[right]!);
    const width = rightAt - leftAt;
    // A width below 1.3 pixels is a hot pixel or a hit; a line cannot be narrower than about its pixel and a bit.
    if (width > 1.3 && width < pixels / 12) candidates.push({ height, width });
  }
  if (candidates.length === 0) return null;
  candidates.sort((a, b) => b.height - a.height);
  const strongest = candidates.slice(0, 15).map((candidate) => candidate.width);
  return quantile(strongest, 0.35);
}

function anyMasked(masked: Uint8Array, from: number, to: number): boolean {
  for (let i = Math.max(0, from); i <= Math.min(masked.length - 1, to); i++) if (masked[i]) return true;
  return false;
}
