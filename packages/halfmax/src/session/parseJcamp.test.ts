import { describe, expect, it } from 'vitest';
import { parseJcamp } from './parseJcamp.js';

const head = (points: number, more = ''): string =>
  `##TITLE=invented\n##JCAMP-DX=4.24\n##DATA TYPE=UV/VIS SPECTRUM\n##XUNITS=NANOMETERS\n##YUNITS=COUNTS\n##FIRSTX=600 $$ nominal\n##LASTX=${599 + points}\n##NPOINTS=${points}\n##XFACTOR=1\n##YFACTOR=1\n${more}`;

const countsOf = (text: string): number[] => Array.from(parseJcamp(text, 'a.jdx')[0]!.counts);

describe('parseJcamp', () => {
  it('reads plain, packed and difference-coded ordinates alike', () => {
    // 100 103 103 103 99 99 in each form: SQZ A00 = 100, DIF L = +3, DUP U = three times, % = no difference, n = -5 and so on.
    const expected = [100, 103, 103, 103, 99, 99];
    expect(countsOf(`${head(6)}##XYDATA=(X++(Y..Y))\n600 100 103 103\n603 103 99 99\n##END=`)).toEqual(
      expected,
    );
    expect(countsOf(`${head(6)}##XYDATA=(X++(Y..Y))\n600+100+103+103\n603+103+99+99\n##END=`)).toEqual(
      expected,
    );
    expect(countsOf(`${head(6)}##XYDATA=(X++(Y..Y))\n600A00A03A03\n603A03I9I9\n##END=`)).toEqual(expected);
    expect(countsOf(`${head(6)}##XYDATA=(X++(Y..Y))\n600A00A03U\n604I9T\n##END=`)).toEqual(expected);
    expect(countsOf(`${head(6)}##XYDATA=(X++(Y..Y))\n600A00L%%m%\n605I9\n##END=`)).toEqual(expected);
    expect(countsOf(`${head(6)}##XYDATA=(X++(Y..Y))\n600A00L%T m%\n605I9\n##END=`)).toEqual(expected);
  });

  it('reads exponents, which the converter alone takes for digits', () => {
    expect(countsOf(`${head(3)}##XYDATA=(X++(Y..Y))\n600 1.5E+03 2.25E-01 -3E+00\n##END=`)).toEqual([
      1500, 0.225, -3,
    ]);
  });

  it('reads pairs, as XYPOINTS and as XYDATA', () => {
    for (const label of ['XYPOINTS', 'XYDATA']) {
      const [scan] = parseJcamp(
        `${head(3)}##${label}=(XY..XY)\n600.0, 10; 601.5, 12\n602.5, 11\n##END=`,
        'a.jdx',
      );
      expect(Array.from(scan!.counts)).toEqual([10, 12, 11]);
      expect(Array.from(scan!.wavelengthNm!)).toEqual([600, 601.5, 602.5]);
    }
  });

  it('keeps the order of a falling abscissa', () => {
    const text = `${head(3).replace('##LASTX=602', '##LASTX=598')}##XYDATA=(X++(Y..Y))\n600 1 2 3\n##END=`;
    expect(Array.from(parseJcamp(text, 'a')[0]!.wavelengthNm!)).toEqual([600, 599, 598]);
  });

  it('gives a scan for each block', () => {
    const block = (title: string, y: string): string =>
      `${head(3).replace('invented', title)}##XYDATA=(X++(Y..Y))\n600 ${y}\n##END=\n`;
    const text = `##TITLE=all\n##DATA TYPE=LINK\n##BLOCKS=2\n${block('one', '1 2 3')}${block('two', '4 5 6')}##END=\n`;
    const scans = parseJcamp(text, 'a.jdx');
    expect(scans.map(({ column }) => column)).toEqual(['one', 'two']);
    expect(scans.map(({ counts }) => Array.from(counts))).toEqual([
      [1, 2, 3],
      [4, 5, 6],
    ]);
  });

  it('leaves wavenumbers as they are: unknown as wavelengths', () => {
    expect(
      parseJcamp(`${head(3).replace('NANOMETERS', '1/CM')}##XYDATA=(X++(Y..Y))\n600 1 2 3\n##END=`, 'a')[0]!
        .wavelengthNm,
    ).toBeNull();
  });

  it.each([
    [
      'a lost line of differences',
      `${head(6)}##XYDATA=(X++(Y..Y))\n600A00L%%m%\n605I2\n##END=`,
      /XYDATA: does not decode/,
    ],
    [
      'a factor with a decimal comma',
      `${head(3).replace('##YFACTOR=1', '##YFACTOR=0,5')}##XYDATA=(X++(Y..Y))\n600 1 2 3\n##END=`,
      /line 10: ##YFACTOR= is "0,5", not a number/,
    ],
    ['an undefined ordinate', `${head(3)}##XYDATA=(X++(Y..Y))\n600 1 ? 3\n##END=`, /line 12: holds "\?"/],
    [
      'a word among pairs',
      `${head(3)}##XYPOINTS=(XY..XY)\n600,1\n601,x\n602,3\n##END=`,
      /line 13: "x" is not a number/,
    ],
    [
      'a pair without its second half',
      `${head(3)}##XYPOINTS=(XY..XY)\n600,1\n601\n602,3\n##END=`,
      /does not decode|holds 2 values/,
    ],
    ['no data', `${head(3)}##END=`, /holds no spectrum/],
  ])('refuses %s', (_, text, pattern) => {
    expect(() => parseJcamp(text, 'a.jdx')).toThrow(pattern);
  });
});
