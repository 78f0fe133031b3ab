/** Pixels of a patch of a halo that an eye takes as one: common practice, no source. */
const PATCH_PIXELS = 100;

/**
 * The patch over which a halo is held against the noise, where nobody states one.
 *
 * @param assumed - gets a line about it
 * @returns pixels
 */
export function usualPatch(assumed: string[]): number {
  assumed.push(`a patch of ${PATCH_PIXELS} pixels (common practice, no source)`);
  return PATCH_PIXELS;
}

/**
 * The length of a frame in which a halo is held against the noise, where nobody states one: that of the image.
 *
 * @param exposureS - of the image, s
 * @param assumed - gets a line about it
 * @returns s
 */
export function frameAsImage(exposureS: number, assumed: string[]): number {
  assumed.push(`frames of ${exposureS} s, as the image`);
  return exposureS;
}
