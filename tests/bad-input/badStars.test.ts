import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { main } from '../../packages/halfmax/src/cli.js';
import type { Measurement } from '../../packages/halfmax/src/index.js';
import { randomStream } from '../../packages/halfmax/src/numeric/index.js';
import { card, fitsData, fitsHeader, joined } from './fitsBytes.js';
import { goodSession, writeSession } from './goodSession.js';

const folder = mkdtempSync(join(tmpdir(), 'halfmax-stars-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const FULL = 60000;

/** A FITS image of single precision. */
function image(width: number, height: number, at: (x: number, y: number) => number): Uint8Array {
  const data = new Uint8Array(4 * width * height);
  const view = new DataView(data.buffer);
  for (let k = 0; k < width * height; k++) view.setFloat32(4 * k, at(k % width, Math.floor(k / width)));
  const cards = [
    card('SIMPLE', 'T'),
    card('BITPIX', '-32'),
    card('NAXIS', '2'),
    card('NAXIS1', String(width)),
    card('NAXIS2', String(height)),
  ];
  return joined(fitsHeader(cards), fitsData(data));
}

const noise = randomStream(11);
const sky = (): number => 500 + 10 * noise.normal();
/** A star of Moffat shape at a place, cut off where a pixel is full. */
const starAt =
  (x0: number, y0: number) =>
  (x: number, y: number): number =>
    Math.min(FULL, sky() + 3e5 * (1 + ((x - x0) ** 2 + (y - y0) ** 2) / 9) ** -3);

const cases: readonly (readonly [string, Uint8Array, RegExp])[] = [
  ['too small', image(20, 20, starAt(10, 10)), /is 20 x 20 pixels; give an image of at least 32 x 32 pixels/],
  ['undefined', image(96, 96, () => Number.NaN), /9216 of 9216 pixels have no value; give a whole image/],
  ['saturated', image(96, 96, () => FULL), /9216 of 9216 pixels are at or above the saturation of 59000/],
  ['empty', image(96, 96, sky), /holds no star that stands out of the background/],
  ['at-the-edge', image(96, 96, starAt(3, 50)), /has the star \d+ pixels from its edge, at least \d+ are/],
];

describe('a star image that can be read but not measured', () => {
  it('is told in a line with file, place, reason and what to do; the rest is measured', async () => {
    const session = goodSession();
    const star = { filter: 'ha', pixelSizeUm: 4, fNumber: 5, saturationCounts: 59000 };
    session.manifest.stars = [...cases.map(([name]) => name), 'good'].map((name) => ({
      ...star,
      file: `stars/${name}.fits`,
    }));
    for (const [name, bytes] of cases) session.files.set(`stars/${name}.fits`, bytes);
    session.files.set('stars/good.fits', image(128, 128, starAt(63.4, 65.7)));
    writeSession(join(folder, 'session'), session);
    let printed = '';
    let errors = '';
    const out = join(folder, 'out');
    const code = await main(['measure', join(folder, 'session'), '--out', out], {
      out: (text) => {
        printed += text;
      },
      error: (text) => {
        errors += text;
      },
      showsProgress: false,
    });
    expect([code, errors]).toEqual([0, '']);
    const { halos, haloComparisons, warnings, filters, provenance }: Measurement = JSON.parse(
      readFileSync(join(out, 'measurement.json'), 'utf8'),
    );
    expect(filters[0]!.bands).toHaveLength(1);
    expect(halos).toHaveLength(cases.length + 1);
    cases.forEach(([name, , reason], k) => {
      const file = `stars/${name}.fits`;
      expect(halos[k]).toEqual({ filter: 'ha', image: file, absent: expect.stringMatching(/\w/) });
      const said = warnings.filter(({ where }) => where === file).map(({ what }) => what);
      expect(said).toHaveLength(1);
      expect(said[0]).toMatch(reason);
      expect(said[0]).toMatch(
        new RegExp(`^stars\\[${k}\\]\\.file: [^;]+; .+ \\(its halos are not measured\\)$`),
      );
      expect(printed.replace(/\s+/g, ' ')).toContain(`${file}: ${said[0]}`);
      expect(provenance.inputs.map((input) => input.file)).toContain(file);
    });
    expect(halos[cases.length]).toMatchObject({ image: 'stars/good.fits', saturated: true });
    expect(haloComparisons).toEqual([
      { star: null, absent: 'fewer than two of the images could be measured' },
    ]);
  }, 60_000);
});
