/**
 * The fastest focal ratio down to which a transmittance stays at or above a level, coming from slow beams.
 *
 * @param fNumbers - descending, 2 or more
 * @param transmittanceAt - of the k-th of them; asked for one after another, no further than needed
 * @param level - the transmittance to be kept
 * @returns the crossing, straight in 1 / N^2 between the ratios; the fastest of them if the level is kept throughout;
 *   Infinity if the slowest is below it already
 * Source: shift and softening go with 1 / N^2 for small angles.
 */
export function fastestRatio(
  fNumbers: ArrayLike<number>,
  transmittanceAt: (k: number) => number,
  level: number,
): number {
  let before = transmittanceAt(0);
  if (!(before >= level)) return Number.POSITIVE_INFINITY;
  for (let k = 1; k < fNumbers.length; k++) {
    const after = transmittanceAt(k);
    if (after >= level) {
      before = after;
      continue;
    }
    const slow = 1 / fNumbers[k - 1]! ** 2;
    const fast = 1 / fNumbers[k]! ** 2;
    return 1 / Math.sqrt(slow + ((before - level) / (before - after)) * (fast - slow));
  }
  return fNumbers[fNumbers.length - 1]!;
}
