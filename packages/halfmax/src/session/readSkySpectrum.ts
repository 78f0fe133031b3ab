import { refuse } from '../errors.js';
import type { SkySpectrum } from '../sky/index.js';
import { decodeText } from './decodeText.js';
import { frameFormat } from './frameFormat.js';
import { parseDelimited } from './parseDelimited.js';
import { readBytes } from './readBytes.js';

/**
 * Reads a measured spectrum of the sky: a table of wavelength in nm and light per nm.
 *
 * @param path - file to read
 * @param unit - what the second column is
 * @param needNm - wavelengths that the spectrum must cover
 * @returns wavelengths rising, and values
 * @throws {BadInputError} no table, wavelengths not in nm or out of order, light below 0, or a range that is not covered
 */
export function readSkySpectrum(
  path: string,
  unit: SkySpectrum['unit'],
  needNm: readonly [number, number],
): SkySpectrum {
  return parseSkySpectrum(readBytes(path, path, 64), path, unit, needNm);
}

/**
 * The same from the bytes of a file.
 *
 * @param bytes - of the file
 * @param path - its name, for messages
 * @param unit - what the second column is
 * @param needNm - wavelengths that the spectrum must cover
 * @returns wavelengths rising, and values
 * @throws {BadInputError} as `readSkySpectrum`
 */
export function parseSkySpectrum(
  bytes: Uint8Array,
  path: string,
  unit: SkySpectrum['unit'],
  needNm: readonly [number, number],
): SkySpectrum {
  if (frameFormat(bytes) !== 'text')
    refuse(path, '', 'is not a delimited text', 'give a table of wavelength and light');
  const { columns, lineNumbers } = parseDelimited(decodeText(bytes, path), path);
  const [wavelength, light] = columns;
  if (wavelength === undefined || light === undefined)
    refuse(path, '', 'holds one column', 'give wavelength and light per nm');
  const n = wavelength.length;
  if (n < 2) refuse(path, '', `holds ${n} points`, 'a spectrum needs at least 2');
  const falls = wavelength[0]! > wavelength[n - 1]!;
  for (let i = 0; i < n; i++) {
    const place = `line ${lineNumbers[i]}`;
    if (i > 0 && !(falls ? wavelength[i]! < wavelength[i - 1]! : wavelength[i]! > wavelength[i - 1]!)) {
      const what = `wavelength ${wavelength[i]} follows ${wavelength[i - 1]}`;
      refuse(path, `${place}, column 1`, what, 'sort the table by wavelength, each once');
    }
    if (light[i]! < 0)
      refuse(path, `${place}, column 2`, `the light ${light[i]} is negative`, 'correct it or set it to 0');
  }
  const wavelengthNm = falls ? Float64Array.from(wavelength).reverse() : wavelength;
  const [from, to] = [wavelengthNm[0]!, wavelengthNm[n - 1]!];
  if (from < 150 || to > 5000)
    refuse(path, 'column 1', `runs from ${from} to ${to}`, 'give wavelengths in nm');
  if (from > needNm[0] || to < needNm[1]) {
    refuse(
      path,
      'column 1',
      `covers ${from} to ${to} nm, not the ${needNm[0]} to ${needNm[1]} nm that are needed`,
      'give a spectrum that covers them',
    );
  }
  return { wavelengthNm, values: falls ? Float64Array.from(light).reverse() : light, unit };
}
