/** Buckets with more values than this are sorted on their own, those with fewer by insertion. */
const MANY = 24;

/**
 * A copy of a sample in ascending order: the order that `sort` gives, but sooner for many values that are spread as
 * draws are. Values are laid into as many buckets of equal width as there are values, then sorted within them.
 *
 * @param values - finite, in any order
 * @returns a copy, ascending
 *
 * Source: bucket sort, D. E. Knuth, The Art of Computer Programming, vol. 3, section 5.2.1 (from memory). Cost: O(n) for
 * draws of one smooth distribution, O(n log n) at worst.
 */
export function ascending(values: Float64Array): Float64Array {
  const n = values.length;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    const value = values[i]!;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  const perUnit = (n - 1) / (most - least);
  // Few values, all the same ones, or a span beyond the range of numbers.
  if (n < 256 || !(perUnit > 0 && perUnit < Number.POSITIVE_INFINITY)) return values.slice().sort();
  const ends = new Int32Array(n);
  for (let i = 0; i < n; i++) ends[((values[i]! - least) * perUnit) | 0]!++;
  for (let k = 0, start = 0; k < n; k++) {
    const count = ends[k]!;
    ends[k] = start;
    start += count;
  }
  const sorted = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const value = values[i]!;
    sorted[ends[((value - least) * perUnit) | 0]!++] = value;
  }
  for (let k = 0, start = 0; k < n; k++) {
    const end = ends[k]!;
    if (end - start > MANY) sorted.subarray(start, end).sort();
    else insert(sorted, start, end);
    start = end;
  }
  return sorted;
}

function insert(sorted: Float64Array, start: number, end: number): void {
  for (let i = start + 1; i < end; i++) {
    const value = sorted[i]!;
    let at = i;
    for (; at > start && sorted[at - 1]! > value; at--) sorted[at] = sorted[at - 1]!;
    sorted[at] = value;
  }
}
