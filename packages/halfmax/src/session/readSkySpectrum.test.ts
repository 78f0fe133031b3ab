import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BadInputError } from '../errors.js';
import type { SkySpectrum } from '../sky/index.js';
import { readSkySpectrum } from './readSkySpectrum.js';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'halfmax-sky-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

function spectrum(text: string): SkySpectrum {
  const path = join(folder, 'sky.csv');
  writeFileSync(path, text);
  return readSkySpectrum(path, 'relative photons', [450, 650]);
}

describe('readSkySpectrum', () => {
  it.each([
    ['rising', 'nm,light\n400,1\n500,2\n700,0.5\n'],
    ['falling', '700 0.5\n500 2\n400 1\n'],
  ])('reads a table of %s wavelengths', (_, text) => {
    const found = spectrum(text);
    expect([...(found.wavelengthNm as Float64Array)]).toEqual([400, 500, 700]);
    expect([...(found.values as Float64Array)]).toEqual([1, 2, 0.5]);
  });

  it.each([
    ['400\t1\n500\t-2\n700\t1\n', 'line 2, column 2: the light -2 is negative'],
    ['400\t1\n500\t2\n500\t1\n700\t1\n', 'wavelength 500 follows 500'],
    ['500\t1\n550\t2\n700\t1\n', 'covers 500 to 700 nm, not the 450 to 650 nm'],
    ['4000\t1\n5500\t2\n7000\t1\n', 'give wavelengths in nm'],
    ['400\n500\n700\n', 'one column'],
    ['no numbers at all\n', 'no line of numbers'],
  ])('refuses %j', (text, message) => {
    expect(() => spectrum(text)).toThrow(BadInputError);
    expect(() => spectrum(text)).toThrow(message);
  });
});
