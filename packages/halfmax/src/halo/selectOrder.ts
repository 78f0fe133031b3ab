/**
 * Partial sorting in place: afterwards the value at `k` is the one that a full sort would put there, those before it
 * are not larger, those after it not smaller.
 *
 * @param values - without NaN; reordered between `from` and `to`
 * @param from - first index of the stretch
 * @param to - index after its last
 * @param k - index wanted, from <= k < to
 * @returns the value at k
 *
 * Source: Hoare, Commun. ACM 4, 321 (1961). Cost: O(to - from) on average.
 * @example
 * selectOrder(new Float32Array([5, 1, 4, 2, 3]), 0, 5, 2); // => 3
 */
export function selectOrder(
  values: Float32Array | Float64Array,
  from: number,
  to: number,
  k: number,
): number {
  let low = from;
  let high = to - 1;
  while (low < high) {
    // Middle of three as the pivot: sorted and constant stretches stay quick.
    const a = values[low]!;
    const b = values[(low + high) >> 1]!;
    const c = values[high]!;
    const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i <= j) {
        const held = values[i]!;
        values[i] = values[j]!;
        values[j] = held;
        i++;
        j--;
      }
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else break;
  }
  return values[k]!;
}
