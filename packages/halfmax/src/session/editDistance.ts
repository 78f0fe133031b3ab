/**
 * How many letters must be changed, put in, left out or swapped with their neighbour to turn one word into another,
 * whatever the case of the letters.
 *
 * @param from - a word
 * @param to - another
 * @returns number of steps, 0 or more
 * Source: optimal string alignment distance, textbook dynamic programming. Cost: O(length x length).
 * @example
 * editDistance('exposureMS', 'exposureMs'); // => 0
 */
export function editDistance(from: string, to: string): number {
  const a = from.toLowerCase();
  const b = to.toLowerCase();
  let beforeLast = new Array<number>(b.length + 1).fill(0);
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = new Array<number>(b.length + 1).fill(i);
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      row[j] = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) row[j] = Math.min(row[j]!, beforeLast[j - 2]! + 1);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length]!;
}
