/**
 * Marks the pixels of one frame that cannot be trusted: at or above the saturation level with their direct
 * neighbours (charge that spills over), and those the file leaves undefined.
 *
 * @param raw - counts as in the file, NaN where undefined
 * @param saturationCounts - counts at and above which a pixel is not to be trusted
 * @param bleedPixels - how far the mask is widened on either side of a saturated pixel
 * @returns 1 where masked; an undefined pixel is masked alone, its neighbours stay
 * Source: level per detector, as an input; one pixel of bleed is common practice, no source.
 * @example
 * saturationMask(Float64Array.of(1, 1, 9, 1, NaN), 9); // => Uint8Array [ 0, 1, 1, 1, 1 ]
 */
export function saturationMask(raw: Float64Array, saturationCounts: number, bleedPixels = 1): Uint8Array {
  const masked = new Uint8Array(raw.length);
  for (let i = 0; i < raw.length; i++) {
    const value = raw[i]!;
    if (Number.isNaN(value)) masked[i] = 1;
    else if (value >= saturationCounts) {
      masked.fill(1, Math.max(0, i - bleedPixels), Math.min(raw.length, i + bleedPixels + 1));
    }
  }
  return masked;
}
