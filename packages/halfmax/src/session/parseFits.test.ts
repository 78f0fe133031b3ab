import { describe, expect, it } from 'vitest';
import { card, fitsData, fitsHeader, fitsImage16, joined } from '../../../../tests/bad-input/fitsBytes.js';
import { fitsFrames } from './fitsFrames.js';
import { fitsPixels } from './fitsPixels.js';
import { fitsValue, parseFits } from './parseFits.js';

type Setter = 'setUint8' | 'setInt16' | 'setInt32' | 'setFloat32' | 'setFloat64';

/** A primary image of one axis with the stored values, written by the setter of the kind, big-endian. */
function image(bitpix: number, stored: readonly (number | bigint)[], extra: string[] = []): Uint8Array {
  const size = Math.abs(bitpix) / 8;
  const data = new Uint8Array(size * stored.length);
  const view = new DataView(data.buffer);
  const setters: Record<number, Setter> = {
    8: 'setUint8',
    16: 'setInt16',
    32: 'setInt32',
    [-32]: 'setFloat32',
    [-64]: 'setFloat64',
  };
  stored.forEach((value, i) => {
    if (typeof value === 'bigint') view.setBigInt64(i * size, value);
    else view[setters[bitpix]!](i * size, value);
  });
  const n = stored.length;
  const cards = [
    card('SIMPLE', 'T'),
    card('BITPIX', String(bitpix)),
    card('NAXIS', '1'),
    card('NAXIS1', String(n)),
    ...extra,
  ];
  return joined(fitsHeader(cards), fitsData(data));
}

const valuesOf = (bytes: Uint8Array): number[] =>
  Array.from(fitsPixels(bytes, parseFits(bytes, 'a.fits')[0]!));

describe('fitsPixels', () => {
  it('reads all six kinds of number, big-endian', () => {
    expect(valuesOf(image(8, [255, 7]))).toEqual([255, 7]);
    expect(valuesOf(image(16, [-32768, 258]))).toEqual([-32768, 258]);
    expect(valuesOf(image(32, [-2147483648]))).toEqual([-2147483648]);
    expect(valuesOf(image(64, [-(2n ** 53n)]))).toEqual([-(2 ** 53)]);
    expect(valuesOf(image(-32, [0.5]))).toEqual([0.5]);
    expect(valuesOf(image(-64, [Math.PI, Number.NaN]))).toEqual([Math.PI, Number.NaN]);
  });

  it('gives unsigned integers by BZERO, also 64-bit ones that no double of 2^63 plus a small number holds', () => {
    // FITS Standard 4.0, section 5.2.5, table 11.
    expect(valuesOf(image(16, [-32768], [card('BZERO', '32768')]))).toEqual([0]);
    expect(
      valuesOf(image(64, [-(2n ** 63n) + 3n, -(2n ** 63n)], [card('BZERO', '9223372036854775808')])),
    ).toEqual([3, 0]);
  });

  it('scales, and compares BLANK with the stored value, of integers only', () => {
    const extra = [card('BSCALE', '2.5D-1'), card('BZERO', '10.'), card('BLANK', '-1')];
    expect(valuesOf(image(16, [-1, 0, 8], extra))).toEqual([Number.NaN, 10, 12]);
    expect(valuesOf(image(-64, [-1], [card('BLANK', '-1')]))).toEqual([-1]);
  });
});

describe('parseFits', () => {
  it('steps over tables and heaps by whole blocks to the images behind', () => {
    const primary = fitsHeader([card('SIMPLE', 'T'), card('BITPIX', '8'), card('NAXIS', '0')]);
    const table = joined(
      fitsHeader([
        card('XTENSION', "'BINTABLE'"),
        card('BITPIX', '8'),
        card('NAXIS', '2'),
        card('NAXIS1', '10'),
        card('NAXIS2', '288'),
        card('PCOUNT', '1'),
        card('GCOUNT', '1'),
      ]),
      new Uint8Array(5760),
    );
    const extension = joined(
      fitsHeader([
        card('XTENSION', "'IMAGE   '"),
        card('BITPIX', '16'),
        card('NAXIS', '1'),
        card('NAXIS1', '2'),
        card('PCOUNT', '0'),
        card('GCOUNT', '1'),
        card('EXTNAME', "'it''s / 1'"),
      ]),
      fitsData(new Uint8Array([0, 5, 0, 6])),
    );
    const bytes = joined(primary, table, extension);
    const [found, ...others] = parseFits(bytes, 'a.fits');
    expect(others).toEqual([]);
    expect([found!.hdu, found!.name, ...found!.axes]).toEqual([2, "it's / 1", 2]);
    expect(Array.from(fitsPixels(bytes, found!))).toEqual([5, 6]);
  });

  it('accepts a last block that is not filled up', () => {
    expect(valuesOf(fitsImage16([3], [4, 5, 6]).subarray(0, 2880 + 6))).toEqual([4, 5, 6]);
  });

  it('reads values of all kinds', () => {
    const extra = [
      card('EXPTIME', '1.5D2'),
      card('FLAG', 'F'),
      card('NONE', ''),
      "OBJECT  = 'a '               / lamp".padEnd(80),
      'COMMENT = 12'.padEnd(80),
    ];
    const { cards } = parseFits(fitsImage16([1], [0], extra), 'a.fits')[0]!;
    expect(['EXPTIME', 'FLAG', 'NONE', 'OBJECT', 'COMMENT'].map((k) => fitsValue(cards, k))).toEqual([
      150,
      false,
      null,
      'a',
      undefined,
    ]);
  });

  it.each([
    [
      'NAXIS1 missing',
      fitsHeader([card('SIMPLE', 'T'), card('BITPIX', '8'), card('NAXIS', '1')]),
      /HDU 0, NAXIS1: is missing/,
    ],
    [
      'BITPIX of 12',
      fitsHeader([card('SIMPLE', 'T'), card('BITPIX', '12'), card('NAXIS', '0')]),
      /BITPIX: is 12/,
    ],
    [
      'SIMPLE false',
      fitsHeader([card('SIMPLE', 'F'), card('BITPIX', '8'), card('NAXIS', '0')]),
      /SIMPLE: says/,
    ],
    [
      'axes beyond all memory',
      fitsHeader([
        card('SIMPLE', 'T'),
        card('BITPIX', '8'),
        card('NAXIS', '3'),
        card('NAXIS1', '999999999'),
        card('NAXIS2', '999999999'),
        card('NAXIS3', '999999999'),
      ]),
      /cannot be/,
    ],
    [
      'random groups',
      fitsHeader([
        card('SIMPLE', 'T'),
        card('BITPIX', '8'),
        card('NAXIS', '2'),
        card('NAXIS1', '0'),
        card('NAXIS2', '4'),
        card('GROUPS', 'T'),
      ]),
      /random groups/,
    ],
    [
      'a byte that is no text',
      fitsHeader([card('SIMPLE', 'T'), card('BITPIX', '8').replace('8', '\t')]),
      /card 2: holds the byte 9/,
    ],
    [
      'an open quote',
      fitsHeader([card('SIMPLE', 'T'), card('BITPIX', '8'), card('NAXIS', '0'), "OBJECT  = 'a".padEnd(80)]),
      /OBJECT: has a text without its closing quote/,
    ],
  ])('refuses %s', (_, bytes, pattern) => {
    expect(() => parseFits(bytes, 'a.fits')).toThrow(pattern);
  });
});

describe('fitsFrames', () => {
  const stored = Array.from({ length: 80 }, (_, i) => i);

  it('reads a spectrum, whichever of its two axes is long', () => {
    expect(fitsFrames(fitsImage16([20], stored.slice(0, 20)), 'a', 20).scans[0]!.counts[19]).toBe(19);
    expect(fitsFrames(fitsImage16([1, 20], stored.slice(0, 20)), 'a', 20).scans[0]!.counts[19]).toBe(19);
  });

  it('turns an image round, with a warning, where only axis 2 has the length of the detector', () => {
    const upright = fitsFrames(fitsImage16([20, 4], stored), 'a', 20);
    const turned = fitsFrames(fitsImage16([4, 20], stored), 'a', 20);
    expect(upright.warnings).toEqual([]);
    expect(turned.warnings).toHaveLength(1);
    expect([turned.images[0]!.image.pixels, turned.images[0]!.image.rows]).toEqual([20, 4]);
    // Stored value at column 1, row 2 of the file is 1 + 2 x 4; turned it is pixel 2 of row 1.
    expect(turned.images[0]!.image.counts[1 * 20 + 2]).toBe(9);
    expect(upright.images[0]!.image.counts[1 * 20 + 2]).toBe(22);
  });

  it('takes wavelengths of the header along', () => {
    const extra = [
      card('CTYPE1', "'WAVE    '"),
      card('CUNIT1', "'Angstrom'"),
      card('CRVAL1', '6500.'),
      card('CDELT1', '2.'),
      card('CRPIX1', '1.'),
    ];
    expect(
      fitsFrames(fitsImage16([20], stored.slice(0, 20), extra), 'a', 20).scans[0]!.wavelengthNm![1],
    ).toBeCloseTo(650.2, 9);
  });

  it('refuses a cube', () => {
    expect(() => fitsFrames(fitsImage16([4, 4, 5], stored), 'a', 4)).toThrow(/has 3 axes \(4 x 4 x 5\)/);
  });
});
