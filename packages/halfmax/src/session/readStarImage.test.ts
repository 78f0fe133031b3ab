import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readStarImage } from './readStarImage.js';

const folder = mkdtempSync(join(tmpdir(), 'halfmax-star-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A FITS file by hand: cards of 80 characters in blocks of 2880, big-endian data. */
function fits(cards: readonly string[], data: Uint8Array, name: string): string {
  const header = [...cards, 'END'].map((card) => card.padEnd(80)).join('');
  const head = header.padEnd(Math.ceil(header.length / 2880) * 2880);
  const padded = new Uint8Array(Math.ceil(data.length / 2880) * 2880);
  padded.set(data);
  const path = join(folder, name);
  writeFileSync(path, Buffer.concat([Buffer.from(head, 'ascii'), padded]));
  return path;
}

const card = (keyword: string, value: string | number): string => `${keyword.padEnd(8)}= ${value}`;
const head = (bitpix: number, width: number, height: number): string[] => [
  card('SIMPLE', 'T'),
  card('BITPIX', bitpix),
  card('NAXIS', 2),
  card('NAXIS1', width),
  card('NAXIS2', height),
];

describe('readStarImage', () => {
  const [width, height] = [5, 3];
  // Values that every kind can hold after BZERO and BSCALE: by hand, 100 + 2 x stored.
  const stored = Array.from({ length: width * height }, (_, k) => (k * 7) % 40);
  const kinds: [number, (view: DataView, k: number, value: number) => void][] = [
    [8, (view, k, value) => view.setUint8(k, value)],
    [16, (view, k, value) => view.setInt16(2 * k, value)],
    [32, (view, k, value) => view.setInt32(4 * k, value)],
    [64, (view, k, value) => view.setBigInt64(8 * k, BigInt(value))],
    [-32, (view, k, value) => view.setFloat32(4 * k, value)],
    [-64, (view, k, value) => view.setFloat64(8 * k, value)],
  ];

  it.each(kinds)('reads BITPIX %d with its scale', (bitpix, set) => {
    const data = new Uint8Array((stored.length * Math.abs(bitpix)) / 8);
    const view = new DataView(data.buffer);
    stored.forEach((value, k) => {
      set(view, k, value);
    });
    const cards = [
      ...head(bitpix, width, height),
      card('BSCALE', 2),
      card('BZERO', 100),
      card('EXPTIME', '30.5'),
    ];
    const path = fits(cards, data, `kind${bitpix}.fits`);
    const image = readStarImage(path, 'star.fits', { saturationCounts: 1e4 });
    expect([image.width, image.height, image.frame, image.offset]).toEqual([5, 3, [5, 3], [0, 0]]);
    expect(Array.from(image.counts)).toEqual(stored.map((value) => 100 + 2 * value));
    expect(image.exposureS).toBe(30.5);
  });

  it('gives NaN for BLANK', () => {
    const data = new Uint8Array(2 * 15);
    new DataView(data.buffer).setInt16(6, -5);
    const path = fits([...head(16, 5, 3), card('BLANK', -5)], data, 'blank.fits');
    const { counts } = readStarImage(path, 'star.fits', { saturationCounts: 1e4 });
    expect(counts[3]).toBeNaN();
    expect(counts[2]).toBe(0);
  });

  it('cuts the star out of a large frame and says from where', () => {
    const [w, h] = [4096, 2200];
    const data = new Uint8Array(w * h);
    for (let y = 1500; y < 1512; y++) data.fill(255, y * w + 900, y * w + 912);
    const image = readStarImage(fits(head(8, w, h), data, 'large.fits'), 'star.fits', {
      saturationCounts: 250,
      reach: 100,
    });
    expect(image.frame).toEqual([w, h]);
    expect(image.width).toBe(201);
    const [x0, y0] = image.offset;
    expect(x0 + 100).toBeGreaterThan(890);
    expect(x0 + 100).toBeLessThan(920);
    expect(image.counts[(1505 - y0) * image.width + 905 - x0]).toBe(255);
    expect(image.counts[(1499 - y0) * image.width + 905 - x0]).toBe(0);
  });

  it.each([
    ['cut.fits', head(16, 500, 400), 'is cut short'],
    [
      'cube.fits',
      [...head(8, 5, 3).map((c) => c.replace(/= 2$/, '= 3')), card('NAXIS3', 2)],
      'an image of 5 x 3 x 2',
    ],
    ['kind.fits', head(12, 5, 3), 'BITPIX'],
    [
      'line.fits',
      [card('SIMPLE', 'T'), card('BITPIX', 8), card('NAXIS', 1), card('NAXIS1', 30)],
      'no 2-D image',
    ],
  ])('refuses %s', (name, cards, message) => {
    const path = fits(cards, new Uint8Array(60), name);
    expect(() => readStarImage(path, name, { saturationCounts: 1e4 })).toThrow(message);
  });

  it('refuses what is no FITS file, and a file that is not there', () => {
    const path = join(folder, 'text.fits');
    writeFileSync(path, 'no image');
    expect(() => readStarImage(path, 'text.fits', { saturationCounts: 1 })).toThrow('not a FITS file');
    expect(() => readStarImage(join(folder, 'none'), 'none', { saturationCounts: 1 })).toThrow(
      'does not exist',
    );
    expect(() => readStarImage(folder, 'folder', { saturationCounts: 1 })).toThrow('not a regular file');
  });
});
