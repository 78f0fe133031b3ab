import { describe, expect, it } from 'vitest';
import { parseDelimited } from './parseDelimited.js';
import { readDelimitedScans } from './readDelimitedScans.js';

const counts = Array.from({ length: 40 }, (_, i) => 1000 + ((i * 37) % 11) + i / 4);
const wavelengths = counts.map((_, i) => 640.25 + 0.37 * i - 0.0002 * i * i);
const comma = (text: string): string => text.replaceAll('.', ',');
const rows = (delimiter: string): string[] =>
  counts.map((c, i) => `${wavelengths[i]!.toFixed(4)}${delimiter}${c.toFixed(2)}`);

function expectSpectrum(text: string): void {
  const [scan, ...others] = readDelimitedScans(text, 'a.txt');
  expect(others).toEqual([]);
  expect(Array.from(scan!.counts)).toEqual(counts.map((c) => Number(c.toFixed(2))));
  expect(Array.from(scan!.wavelengthNm!)).toEqual(wavelengths.map((w) => Number(w.toFixed(4))));
}

describe('parseDelimited reads one spectrum in every dress', () => {
  it.each([
    ['comma', rows(',').join('\n')],
    ['comma and blank', rows(', ').join('\n')],
    ['semicolon', rows(';').join('\n')],
    ['semicolon, decimal comma', comma(rows(';').join('\n'))],
    ['tab', rows('\t').join('\n')],
    ['tab, decimal comma', comma(rows('\t').join('\n'))],
    [
      'blanks in front and between',
      rows('   ')
        .map((row) => `  ${row}`)
        .join('\n'),
    ],
    ['blanks, decimal comma', comma(rows(' ').join('\n'))],
    ['CRLF', rows(',').join('\r\n')],
    ['line breaks of old systems', rows(',').join('\r')],
    ['byte-order mark', `\ufeff${rows(',').join('\n')}`],
    [
      'semicolons at line ends',
      rows(';')
        .map((row) => `${row};`)
        .join('\n'),
    ],
    [
      'commas at line ends',
      rows(',')
        .map((row) => `${row},`)
        .join('\n'),
    ],
    [
      'quoted cells',
      rows('","')
        .map((row) => `"${row}"`)
        .join('\n'),
    ],
    [
      'quoted cells, decimal comma, separated by commas',
      rows('|')
        .map((row) => `"${comma(row).replace('|', '","')}"`)
        .join('\n'),
    ],
    ['blank lines between', rows('\t').join('\n\n')],
    [
      'exponents',
      counts.map((c, i) => `${wavelengths[i]!.toFixed(4)} ${(c / 1000).toFixed(5)}E+03`).join('\n'),
    ],
    [
      'exponents of Fortran',
      counts.map((c, i) => `${wavelengths[i]!.toFixed(4)} ${(c / 1000).toFixed(5)}D+03`).join('\n'),
    ],
    [
      'header with numbers',
      `Data from 3 scans\nExposure (us): 100000\nNumber of pixels 40\n${rows('\t').join('\n')}`,
    ],
    ['header of pairs with numbers', `Exposure;100\nPixels;40\nwavelength;counts\n${rows(';').join('\n')}`],
    ['header of numbers only', `100000\n40 1 7\n${rows('\t').join('\n')}`],
    ['begin and end marks', `>>>>> counts follow <<<<<\n${rows('\t').join('\n')}\n>>>>>End\n`],
    [
      'comments of all kinds',
      `# a\n% b\n; c\n// d\n${rows(' ').slice(0, 20).join('\n')}\n# between\n${rows(' ').slice(20).join('\n')}\n; 3 end`,
    ],
    [
      'remarks behind numbers',
      rows(' ')
        .map((row) => `${row} # good`)
        .join('\n'),
    ],
    ['old end-of-file mark', `${rows(',').join('\r\n')}\r\n\u001a`],
    ['degree sign in the header', `Detector at -10 \u00b0C\n${rows(';').join('\n')}`],
    [
      'pixel, wavelength, counts',
      counts.map((c, i) => `${i}\t${wavelengths[i]!.toFixed(4)}\t${c.toFixed(2)}`).join('\n'),
    ],
    [
      'micrometres',
      `wavelength (um),counts\n${counts.map((c, i) => `${(Number(wavelengths[i]!.toFixed(4)) / 1000).toFixed(7)},${c.toFixed(2)}`).join('\n')}`,
    ],
  ])('%s', (name, text) => {
    if (name === 'micrometres') {
      const [scan] = readDelimitedScans(text, 'a.txt');
      scan!.wavelengthNm!.forEach((w, i) => {
        expect(w).toBeCloseTo(Number(wavelengths[i]!.toFixed(4)), 9);
      });
    } else expectSpectrum(text);
  });

  it('names columns from the header, units and all', () => {
    expect(parseDelimited(`Wavelength;Signal\nnm;counts\n${rows(';').join('\n')}`, 'a').names).toEqual([
      'Wavelength nm',
      'Signal counts',
    ]);
    expect(
      parseDelimited(`# pixel counts\n${counts.map((c, i) => `${i} ${c}`).join('\n')}`, 'a').names,
    ).toEqual(['pixel', 'counts']);
  });

  it('reads 100 000 lines without a spread that overflows the stack', () => {
    const [scan] = readDelimitedScans(
      Array.from({ length: 100_000 }, (_, i) => `${i},${i % 977}`).join('\n'),
      'a',
    );
    expect(scan!.counts.length).toBe(100_000);
    expect(scan!.counts[99_999]).toBe(99_999 % 977);
  });
});

describe('readDelimitedScans decides what is an axis', () => {
  const column = (values: readonly number[]): Float64Array =>
    readDelimitedScans(values.join('\n'), 'a')[0]!.counts;

  it('never takes a single column for an axis, even where it rises evenly', () => {
    expect(Array.from(column([400, 401, 402, 403, 404]))).toEqual([400, 401, 402, 403, 404]);
  });

  it('reads a single column with decimal commas where a zero behind the comma shows it', () => {
    expect(Array.from(readDelimitedScans('1000,25\n1003,05\n998,50\n', 'a')[0]!.counts)).toEqual([
      1000.25, 1003.05, 998.5,
    ]);
    expect(Array.from(readDelimitedScans('1000\n1003,5\n998,25\n', 'a')[0]!.counts)).toEqual([
      1000, 1003.5, 998.25,
    ]);
  });

  it('takes whole numbers one by one for pixels, from 0 or 1, and turns falling ones round', () => {
    expect(Array.from(readDelimitedScans('0,9\n1,7\n2,8\n', 'a')[0]!.counts)).toEqual([9, 7, 8]);
    expect(Array.from(readDelimitedScans('3;9\n2;7\n1;8\n', 'a')[0]!.counts)).toEqual([8, 7, 9]);
    const both = readDelimitedScans('2 652.0 9\n1 651.0 7\n0 650.0 8\n', 'a')[0]!;
    expect(Array.from(both.counts)).toEqual([8, 7, 9]);
    expect(Array.from(both.wavelengthNm!)).toEqual([650, 651, 652]);
  });

  it('keeps the order of a falling wavelength column: rows are pixels', () => {
    const scan = readDelimitedScans('652.5 9\n651.5 7\n650.5 8\n649.5 3\n', 'a')[0]!;
    expect(Array.from(scan.counts)).toEqual([9, 7, 8, 3]);
    expect(Array.from(scan.wavelengthNm!)).toEqual([652.5, 651.5, 650.5, 649.5]);
  });

  it('takes whole nm for wavelengths, by header or range', () => {
    const text = Array.from({ length: 5 }, (_, i) => `${400 + i},${7 + i}`).join('\n');
    expect(readDelimitedScans(text, 'a')[0]!.wavelengthNm).not.toBeNull();
    expect(readDelimitedScans(`pixel,counts\n${text}`, 'a')[0]!.wavelengthNm).toBeNull();
  });

  it('gives one scan per column of counts, with its name', () => {
    const scans = readDelimitedScans('nm;scan 1;scan 2\n650,1;7;8\n650,6;5;6\n651,1;4;9\n', 'a');
    expect(scans.map(({ column: name }) => name)).toEqual(['scan 1', 'scan 2']);
    expect(scans.map(({ counts: c }) => Array.from(c))).toEqual([
      [7, 5, 4],
      [8, 6, 9],
    ]);
  });

  it('allows negative counts', () => {
    expect(Array.from(column([-3, 0, -2.5, 4]))).toEqual([-3, 0, -2.5, 4]);
  });

  it.each([
    ['two columns of counts without an axis', '10 11\n12 9\n11 13\n', /neither pixel numbers/],
    ['pixels with a gap', '0;5\n1;5\n2;5\n4;5\n5;5\n', /line 4, column 1: pixel number 4 follows 2/],
    ['a thousands mark', '400;1.234,5\n401;1.235,5\n402;1.236,0\n', /column 2: "1\.234,5" .*decimal/],
    ['numbers that could be pairs or decimals', '1203,11\n1198,12\n1201,31\n', /two ways/],
    ['an empty cell in the middle', '400;1;2\n401;;2\n402;1;2\n403;3;4\n', /line 2, column 2: is empty/],
    ['a word among single counts', '5\n6\nx\n7\n8\n9\n', /line 3: "x" is not a number/],
    ['NaN at the end', '5\n6\n7\nNaN\n', /line 4: "NaN" is not a number/],
    ['a hash of a spreadsheet', '1;5\n2;6\n3;#N/A\n4;6\n', /line 3, column 2: "#N\/A" is not a number/],
    [
      'a line with a number too many',
      '1 5\n2 6 7\n3 7\n4 7\n5 7\n',
      /line 2: has 3 values, the other lines have 2/,
    ],
    [
      'decimal signs mixed',
      '1;5.5\n2;6.5\n3;7,5\n4;6.5\n',
      /line 3, column 2: "7,5" does not have the decimal sign "\."/,
    ],
  ])('refuses %s', (_, text, pattern) => {
    expect(() => readDelimitedScans(text, 'a.txt')).toThrow(pattern);
  });
});

describe('readDelimitedScans of several frames', () => {
  it('counts an axis that stands before each column of counts once', () => {
    const rows = Array.from(
      { length: 20 },
      (_, i) =>
        `${(600 + 0.3 * i).toFixed(1)};${100 + ((7 * i) % 13)};${(600 + 0.3 * i).toFixed(1)};${200 + i}`,
    );
    const scans = readDelimitedScans(`nm;counts;nm;counts\n${rows.join('\n')}\n`, 'a.csv');
    expect(scans.map(({ counts }) => counts[3])).toEqual([108, 203]);
    expect(scans.every(({ wavelengthNm }) => wavelengthNm?.[0] === 600)).toBe(true);
  });

  it('refuses a second axis of other numbers', () => {
    const rows = Array.from(
      { length: 20 },
      (_, i) =>
        `${(600 + 0.3 * i).toFixed(1)};${100 + ((7 * i) % 13)};${(601 + 0.3 * i).toFixed(1)};${200 + i}`,
    );
    expect(() => readDelimitedScans(`nm;a;nm;b\n${rows.join('\n')}\n`, 'a.csv')).toThrow(
      /column 3 is called "nm" like the first/,
    );
  });
});
