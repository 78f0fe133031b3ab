/**
 * Whether a name fits a pattern in which `*` stands for any run of characters, also none. As in a shell, a leading
 * `*` does not stand for the dot of a hidden file.
 *
 * @param name - one path segment
 * @param pattern - one path segment
 * @returns true when it fits
 * Cost: O(name x pattern) at worst, whatever the number of stars.
 * @example
 * matchesWildcard('dark_01.csv', 'dark_*.csv'); // => true
 */
export function matchesWildcard(name: string, pattern: string): boolean {
  if (name.startsWith('.') && !pattern.startsWith('.')) return false;
  let n = 0;
  let p = 0;
  let star = -1;
  let resume = 0;
  while (n < name.length) {
    if (pattern[p] === '*') {
      star = p++;
      resume = n;
    } else if (p < pattern.length && pattern[p] === name[n]) {
      p++;
      n++;
    } else if (star >= 0) {
      p = star + 1;
      n = ++resume;
    } else {
      return false;
    }
  }
  while (pattern[p] === '*') p++;
  return p === pattern.length;
}
