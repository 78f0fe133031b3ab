import { resolveLines } from 'halfmax/reference';

/**
 * The emission lines that a filter's id speaks of.
 *
 * @param id - such as `ossenvale-ha` or `brennick-o3-7`
 * @returns species of the table of emission lines, each standing for its principal lines; null where the id names none
 * @example
 * linesFromId('ossenvale-s2'); // => ['[S II]']
 */
export function linesFromId(id: string): string[] | null {
  const words = id.split(/[._-]+/);
  const pairs = words.slice(1).map((word, k) => `${words[k]}-${word}`);
  const found = [...pairs, ...words]
    // A number alone may be a width or a count: no wavelength is meant by it.
    .filter((word) => /[a-z]/i.test(word) && !/^\d/.test(word))
    .flatMap((word) => resolveLines(word) ?? [])
    .map(({ species }) => species);
  return found.length > 0 ? [...new Set(found)] : null;
}
