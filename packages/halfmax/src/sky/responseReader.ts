import { tableReader } from './tableReader.js';
import type { Response } from './types.js';

/**
 * Checks a response and reads it.
 *
 * @param caller - name of the function that was called
 * @param response - a fraction for all wavelengths, or a table
 * @returns read(nm), and the range that the table covers
 * @throws {RangeError} a fraction outside 0 to 1, or wavelengths that do not rise
 */
export function responseReader(
  caller: string,
  response: Response,
): { read: (wavelengthNm: number) => number; fromNm: number; toNm: number } {
  const refuse = (what: string): never => {
    throw new RangeError(`${caller} requires ${what}`);
  };
  if (typeof response === 'number') {
    if (!(response >= 0 && response <= 1)) refuse(`a response from 0 to 1, got ${response}`);
    return { read: () => response, fromNm: 0, toNm: Number.POSITIVE_INFINITY };
  }
  const { wavelengthNm, fraction } = response;
  const n = wavelengthNm.length;
  if (n < 2 || fraction.length !== n)
    refuse(`a response table of 2 points or more, got ${n} and ${fraction.length}`);
  const pairs = Array.from({ length: n }, (_, i) => {
    const [at, value] = [wavelengthNm[i]!, fraction[i]!];
    if (!(at > 0) || (i > 0 && !(at > wavelengthNm[i - 1]!)))
      refuse(`rising wavelengths of a response, got ${at} at index ${i}`);
    if (!(value >= 0 && value <= 1)) refuse(`responses from 0 to 1, got ${value} at index ${i}`);
    return [at, value];
  });
  return { read: tableReader(pairs), fromNm: wavelengthNm[0]!, toNm: wavelengthNm[n - 1]! };
}
