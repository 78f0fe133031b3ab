import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CurveFile, readCurve } from './readCurve.js';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'halfmax-curve-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

function curve(text: string | Uint8Array): CurveFile {
  const path = join(folder, 'curve.txt');
  writeFileSync(path, text);
  return readCurve(path);
}

const nm = [650, 652.5, 655, 656.3, 658, 661];
const t = [0, -0.0004, 0.45, 0.9, 0.31, 0];

describe('readCurve', () => {
  it.each([
    ['nm and fraction', (w: number, v: number) => `${w},${v}`, 'wavelength_nm,transmittance'],
    ['nm and percent by the values', (w: number, v: number) => `${w}\t${v * 100}`, 'Wavelength\tT'],
    ['micrometres', (w: number, v: number) => `${w / 1000};${v}`, 'um;T'],
    ['Angstrom', (w: number, v: number) => `${w * 10} ${v}`, ''],
    ['metres', (w: number, v: number) => `${w * 1e-9} ${v}`, ''],
    [
      'decimal comma and percent',
      (w: number, v: number) => `${w};${v * 100}`.replaceAll('.', ','),
      'Wellenlänge nm;%',
    ],
  ])('reads %s', (_, row, header) => {
    const read = curve(`${header}\n${nm.map((w, i) => row(w, t[i]!)).join('\n')}\n`);
    read.wavelengthNm.forEach((w, i) => {
      expect(w).toBeCloseTo(nm[i]!, 9);
    });
    read.transmittance.forEach((v, i) => {
      expect(v).toBeCloseTo(t[i]!, 12);
    });
    expect(read.standardUncertainty).toBeNull();
  });

  it('turns a falling table round and keeps negative noise and padded ends', () => {
    const read = curve(
      nm
        .map((w, i) => `${w} ${t[i]}`)
        .reverse()
        .join('\n'),
    );
    expect(Array.from(read.wavelengthNm)).toEqual(nm);
    expect(Array.from(read.transmittance)).toEqual(t);
    expect(read.warnings).toEqual([]);
  });

  it('believes a percent sign where the values alone would be a fraction, and says so', () => {
    const read = curve(`nm,T [%]\n650,0.1\n651,0.9\n652,0.2\n`);
    expect(read.transmittance[1]).toBeCloseTo(0.009, 12);
    expect(read.warnings.map(({ what }) => what)).toEqual([
      'transmittances are read as percent, as the header says',
    ]);
  });

  it('reads a third column as uncertainty where the header says so, and else leaves it out with a warning', () => {
    expect(
      Array.from(curve('nm,T %,uncertainty %\n650,10,1\n651,90,2\n652,20,1\n').standardUncertainty!),
    ).toEqual([0.01, 0.02, 0.01]);
    const read = curve('nm,a,b\n650,0.1,1\n651,0.9,2\n652,0.2,1\n');
    expect(read.standardUncertainty).toBeNull();
    expect(read.warnings.map(({ what }) => what)).toEqual(['1 further column is not used']);
  });

  it('reads UTF-16 and Latin-1', () => {
    const text = 'Wellenl\u00e4nge \u00b5m;T\n0,650;0,1\n0,651;0,9\n0,652;0,2\n';
    const utf16 = new Uint8Array(Buffer.from(`\ufeff${text}`, 'utf16le'));
    for (const bytes of [utf16, new Uint8Array(Buffer.from(text, 'latin1'))]) {
      expect(curve(bytes).wavelengthNm[2]).toBeCloseTo(652, 9);
    }
  });

  it.each([
    [
      'a wavelength given twice',
      '650,0.1\n651,0.9\n651,0.8\n652,0.2\n',
      /line 3, column 1: wavelength 651 is given twice/,
    ],
    [
      'wavelengths out of order',
      '650,0.1\n652,0.9\n651,0.8\n653,0.2\n',
      /line 3, column 1: wavelength 651 follows 652/,
    ],
    ['one column', '1\n2\n3\n', /holds one column/],
    ['two points', '650,0.1\n651,0.9\n', /holds 2 points/],
    [
      'a unit that the values contradict',
      'nm,T\n6500,0.1\n6510,0.9\n6520,0.2\n',
      /column 1: is called "nm", but 6500 to 6520 would be Angstrom/,
    ],
    ['wavelengths of no unit', '1,0.1\n2,0.9\n3,0.2\n', /neither nm, um, Angstrom nor m/],
    ['optical density', 'nm,OD\n650,0.1\n651,0.9\n652,0.2\n', /column 2: is called "OD"/],
    ['counts', 'nm,x\n650,1000\n651,9000\n652,2000\n', /column 2: holds 9000, more than any transmittance/],
    ['a word', '650,0.1\n651,high\n652,0.2\n653,0.1\n', /line 2, column 2: "high" is not a number/],
  ])('refuses %s', (_, text, pattern) => {
    expect(() => curve(text)).toThrow(pattern);
  });
});
