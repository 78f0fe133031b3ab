import { isAbsent, type Quantity } from '../metrics/index.js';

/** A candidate with its place. */
export interface Ranked<T> {
  readonly item: T;
  /** From 1; those of a tie share the best of their places. Null where there is no number. */
  readonly rank: number | null;
  /** Candidates whose intervals overlap with this one's. */
  readonly tiedWith: readonly T[];
}

/**
 * Ranks candidates by a number, with a tie where the 95 % intervals overlap.
 *
 * A candidate's place is one more than the count of those that are better beyond overlap, so that a place is never
 * claimed on a difference that the intervals do not show. Ties need not chain: A may tie with B and B with C while A
 * is better than C.
 *
 * @param items - candidates
 * @param numberOf - the number of each
 * @param better - whether less or more is better
 * @returns in the order of place, then of value; those without a number last
 * Source: overlap of coverage intervals, a cautious test: candidates called different are so at better than 95 %.
 * @example
 * rankFilters([2, 1], (x) => ({ value: x, standardUncertainty: 0, interval95: [x, x] }), 'less')[0].item; // => 1
 */
export function rankFilters<T>(
  items: readonly T[],
  numberOf: (item: T) => Quantity,
  better: 'less' | 'more',
): Ranked<T>[] {
  const sign = better === 'less' ? 1 : -1;
  const known = items.flatMap((item) => {
    const number = numberOf(item);
    if (isAbsent(number)) return [];
    const ends = number.interval95.map((end) => sign * end);
    return [{ item, value: sign * number.value, low: Math.min(...ends), high: Math.max(...ends) }];
  });
  const placed = known
    .map((one) => ({
      ...one,
      rank: 1 + known.filter((other) => other.high < one.low).length,
      tiedWith: known
        .filter((other) => other !== one && other.high >= one.low && other.low <= one.high)
        .map(({ item }) => item),
    }))
    .sort((a, b) => a.rank - b.rank || a.value - b.value);
  const unknown = items.filter((item) => isAbsent(numberOf(item)));
  return [
    ...placed.map(({ item, rank, tiedWith }) => ({ item, rank, tiedWith })),
    ...unknown.map((item) => ({ item, rank: null, tiedWith: [] })),
  ];
}
