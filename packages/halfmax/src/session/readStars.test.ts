import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readStars } from './readStars.js';

const root = realpathSync(mkdtempSync(join(tmpdir(), 'halfmax-read-stars-')));
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** A FITS image of 8 x 6 pixels by hand: cards of 80 characters in blocks of 2880, 16 bits, big-endian. */
function write(name: string, cards: readonly string[] = []): void {
  const head = ['SIMPLE  = T', 'BITPIX  = 16', 'NAXIS   = 2', 'NAXIS1  = 8', 'NAXIS2  = 6', ...cards, 'END'];
  const data = new Uint8Array(2880);
  for (let k = 0; k < 48; k++) new DataView(data.buffer).setInt16(2 * k, k);
  const text = head
    .map((card) => card.padEnd(80))
    .join('')
    .padEnd(2880);
  mkdirSync(join(root, 'stars'), { recursive: true });
  writeFileSync(join(root, 'stars', name), Buffer.concat([Buffer.from(text, 'latin1'), data]));
}

write('long.fits', ['EXPTIME = 120.0']);
write('short.fits', ['EXPTIME = 0.5']);
write('plain.fits');
const star = { filter: 'ha', file: 'stars/long.fits', pixelSizeUm: 4, fNumber: 5, saturationCounts: 60000 };
const read = (...stars: Record<string, unknown>[]) => readStars(root, { stars }, 'session.json');

describe('readStars', () => {
  it('reads an image, with null for what the session does not state', () => {
    const { stars, inputs, problems } = read(star);
    expect(problems).toEqual([]);
    expect(inputs).toEqual([{ file: 'stars/long.fits', sha256: expect.stringMatching(/^[0-9a-f]{64}$/) }]);
    const [entry] = stars;
    expect(entry).toMatchObject({
      index: 0,
      filter: 'ha',
      star: null,
      fNumberUncertainty: 0,
      near: null,
      light: null,
      reference: null,
      layers: null,
      limit: null,
      focalLengthMm: null,
      obstruction: null,
      fNumberBefore: null,
      movedSpacingMm: null,
    });
    expect(entry!.picture).toMatchObject({ file: 'stars/long.fits', exposureS: 120 });
    expect(entry!.picture.image).toMatchObject({ width: 8, height: 6, offset: [0, 0], frame: [8, 6] });
    expect(Array.from(entry!.picture.image.counts)).toEqual(Array.from({ length: 48 }, (_, k) => k));
  });

  it('counts places from 0 where the session counts from 1, as FITS does', () => {
    expect(read({ ...star, near: { x: 3, y: 1 } }).stars[0]!.near).toEqual({ x: 2, y: 0 });
  });

  it('takes exposures from the headers, but those stated first', () => {
    const ratio = (more: Record<string, unknown>) => {
      const { light } = read({ ...star, shortFile: 'stars/short.fits', ...more }).stars[0]!;
      return light !== null && light.kind === 'short' ? light.exposureRatio : null;
    };
    expect(ratio({})).toBe(240);
    expect(ratio({ exposureS: 60 })).toBe(120);
    expect(ratio({ exposureS: 60, shortExposureS: 2 })).toBe(30);
    expect(ratio({ file: 'stars/plain.fits', exposureS: 1 })).toBe(2);
  });

  it('takes the light from a magnitude', () => {
    expect(read({ ...star, magnitude: 3, zeroPoint: 20 }).stars[0]!.light).toEqual({
      kind: 'magnitude',
      magnitude: 3,
      zeroPoint: 20,
      uncertainty: 0,
    });
  });

  it('names each file once among the inputs', () => {
    const { inputs } = read(
      { ...star, shortFile: 'stars/short.fits', referenceFile: 'stars/plain.fits' },
      { ...star, shortFile: 'stars/short.fits' },
    );
    expect(inputs.map(({ file }) => file)).toEqual([
      'stars/long.fits',
      'stars/short.fits',
      'stars/plain.fits',
    ]);
  });

  it('gathers all problems', () => {
    const { problems } = read(
      { ...star, file: 'stars/none.fits', shortFile: '../out.fits' },
      { ...star, file: 'stars/plain.fits', shortFile: 'stars/plain.fits' },
    );
    expect(problems.map(({ where, place }) => [where, place])).toEqual([
      ['session.json', 'stars[0].file'],
      ['session.json', 'stars[0].shortFile'],
      ['session.json', 'stars[1].exposureS'],
    ]);
  });

  it('takes anything that JSON can hold', () => {
    for (const stars of [null, 3, 'x', {}, [null, 7, [], { file: 7 }, { near: 3 }]])
      expect(readStars(root, { stars }, 'session.json')).toEqual({ stars: [], inputs: [], problems: [] });
  });
});
