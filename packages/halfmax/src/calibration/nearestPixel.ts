/**
 * The pixel below the place of a wavelength.
 *
 * @param wavelengthOf - a scale that rises or falls throughout
 * @param nm - the wavelength
 * @param pixels - length of the detector
 * @returns whole pixel from 0 to the last but one
 */
export function nearestPixel(wavelengthOf: (pixel: number) => number, nm: number, pixels: number): number {
  let low = 0;
  let high = pixels - 1;
  const rising = wavelengthOf(high) > wavelengthOf(low);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (wavelengthOf(middle) > nm === rising) high = middle;
    else low = middle;
  }
  return low;
}
