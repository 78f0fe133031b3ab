/** Two coverage intervals of the same sample. */
export interface CoverageIntervals {
  /** As much probability below as above. */
  readonly symmetric: readonly [low: number, high: number];
  /** The shortest of all; contains the mode of a distribution with one peak. */
  readonly shortest: readonly [low: number, high: number];
}

/**
 * Coverage intervals read from a sorted sample.
 *
 * With M values and q = pM (rounded to a whole number), an interval runs from the r-th value to the (r + q)-th.
 * The symmetric one has r = (M - q) / 2 (rounded up to a whole number); the shortest one the r of least length, the
 * first such r if there are several.
 *
 * @param sorted - M values, ascending; at least one must be left over outside: round(pM) < M
 * @param coverage - probability p, between 0 and 1 exclusive
 * @returns both intervals, in the unit of the values
 * @throws {RangeError} coverage out of range, or too few values for it
 *
 * Source: JCGM 101:2008, 7.7 (rounding rules from memory). Cost: O(M).
 */
export function coverageInterval(sorted: ArrayLike<number>, coverage: number): CoverageIntervals {
  const m = sorted.length;
  const q = coveredCount('coverageInterval', m, coverage);
  const r = Math.floor((m - q + 1) / 2);
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + q < m; i++) {
    const length = sorted[i + q]! - sorted[i]!;
    if (length < least) {
      least = length;
      best = i;
    }
  }
  return {
    symmetric: [sorted[r - 1]!, sorted[r - 1 + q]!],
    shortest: [sorted[best]!, sorted[best + q]!],
  };
}

/** Count of steps q an interval spans, after checking that `count` values are enough. */
export function coveredCount(caller: string, count: number, coverage: number): number {
  if (!(coverage > 0 && coverage < 1)) {
    throw new RangeError(`${caller} requires coverage between 0 and 1, got ${coverage}`);
  }
  const q = Math.round(coverage * count);
  if (q >= count || q < 1) {
    throw new RangeError(`${caller} requires more values for a coverage of ${coverage}, got ${count}`);
  }
  return q;
}
