/** How far two numbers may be apart and still count as the same: whichever of both allows more. */
export interface Tolerance {
  /** Part of the larger of both. */
  readonly relative: number;
  readonly absolute: number;
}

export const EXACT: Tolerance = { relative: 0, absolute: 0 };

/**
 * Whether two numbers count as the same.
 *
 * @param a - any number
 * @param b - any number
 * @param tolerance - exact where both are 0
 * @returns true where they are equal, both not a number, or within the tolerance
 */
export function isClose(a: number, b: number, tolerance: Tolerance): boolean {
  if (Object.is(a, b) || a === b) return true;
  const allowed = Math.max(tolerance.absolute, tolerance.relative * Math.max(Math.abs(a), Math.abs(b)));
  return Math.abs(a - b) <= allowed;
}

/**
 * A tolerance in words.
 *
 * @param tolerance - as used
 * @returns such as `exactly` or `with a tolerance of 1e-9 relative`
 */
export function describeTolerance({ relative, absolute }: Tolerance): string {
  if (relative === 0 && absolute === 0) return 'exactly';
  const parts = [
    ...(relative > 0 ? [`${relative} of the larger`] : []),
    ...(absolute > 0 ? [`${absolute}`] : []),
  ];
  return `with a tolerance of ${parts.join(', or ')}`;
}
