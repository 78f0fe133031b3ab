import { resolveLines } from 'halfmax/reference';

/** Lines that near each other are meant together: common practice, no source. */
const PAIR_NM = 2;

/**
 * The emission lines that a filter's id speaks of.
 *
 * @param id - such as `ossenvale-ha` or `brennick-o3-7`
 * @returns names of the table of emission lines: the first of a species, and those that one narrow band takes in with it;
 *   null where the id names none
 * @example
 * linesFromId('ossenvale-s2'); // => ['[S II] 671.6', '[S II] 673.1']
 */
export function linesFromId(id: string): string[] | null {
  const words = id.split(/[._-]+/);
  const pairs = words.slice(1).map((word, k) => `${words[k]}-${word}`);
  const found = [...pairs, ...words]
    // A number alone may be a width or a count: no wavelength is meant by it.
    .filter((word) => /[a-z]/i.test(word) && !/^\d/.test(word))
    .flatMap((word) => {
      const [first, ...others] = resolveLines(word) ?? [];
      if (first === undefined) return [];
      return [first, ...others.filter((line) => Math.abs(line.wavelengthNm - first.wavelengthNm) < PAIR_NM)];
    })
    .map(({ name }) => name);
  return found.length > 0 ? [...new Set(found)] : null;
}
