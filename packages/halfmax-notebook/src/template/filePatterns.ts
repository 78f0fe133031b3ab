/**
 * Patterns for the files of an entry: one with a star where it fits these files and no other, else the names.
 *
 * @param files - of the entry
 * @param all - every frame file of the folder
 * @returns entries for `files` of a session
 * @example
 * filePatterns(['a-01.csv', 'a-02.csv'], ['a-01.csv', 'a-02.csv', 'b.csv']); // => ['a-*.csv']
 */
export function filePatterns(files: readonly string[], all: readonly string[]): string[] {
  const endings = [...new Set(files.map(endingOf))];
  return endings.flatMap((ending) => {
    const own = files.filter((file) => endingOf(file) === ending);
    if (own.length === 1 || own.some((file) => file.includes('*'))) return own;
    const start = own.reduce(commonStart).replace(/\d+$/, '');
    const fits = (file: string): boolean =>
      file.startsWith(start) && file.endsWith(ending) && !file.slice(start.length).includes('/');
    const isSafe = start !== '' && !start.endsWith('/') && own.every(fits);
    return isSafe && all.filter(fits).length === own.length ? [`${start}*${ending}`] : own;
  });
}

function endingOf(file: string): string {
  return /\.[^./]*$/.exec(file)?.[0] ?? '';
}

function commonStart(a: string, b: string): string {
  let n = 0;
  while (n < a.length && a[n] === b[n]) n++;
  return a.slice(0, n);
}
