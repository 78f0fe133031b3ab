/**
 * Effective degrees of freedom of a combined standard uncertainty (Welch and Satterthwaite).
 *
 * @param contributions - |slope x standard uncertainty| of each input, in the unit of the output; independent inputs
 * @param degreesOfFreedom - of each contribution, Infinity where it is known exactly
 * @returns effective degrees of freedom, greater than 0, Infinity where no contribution has a finite number
 * @throws {RangeError} lengths that differ, or degrees of freedom not above 0
 *
 * Source: JCGM 100:2008, G.4.1, equation (G.2b).
 */
export function effectiveDegreesOfFreedom(
  contributions: ArrayLike<number>,
  degreesOfFreedom: ArrayLike<number>,
): number {
  if (contributions.length !== degreesOfFreedom.length) {
    throw new RangeError(
      `effectiveDegreesOfFreedom requires ${contributions.length} degrees of freedom, got ${degreesOfFreedom.length}`,
    );
  }
  let variance = 0;
  let fourth = 0;
  for (let i = 0; i < contributions.length; i++) {
    const square = contributions[i]! ** 2;
    const own = degreesOfFreedom[i]!;
    if (!(own > 0)) {
      throw new RangeError(
        `effectiveDegreesOfFreedom requires degrees of freedom > 0, got ${own} at index ${i}`,
      );
    }
    variance += square;
    fourth += square ** 2 / own;
  }
  return fourth === 0 ? Number.POSITIVE_INFINITY : variance ** 2 / fourth;
}
