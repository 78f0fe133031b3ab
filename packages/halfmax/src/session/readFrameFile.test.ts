import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { card, fitsImage16 } from '../../../../tests/bad-input/fitsBytes.js';
import { BadInputError } from '../errors.js';
import { frameFormat } from './frameFormat.js';
import { readFrameFile } from './readFrameFile.js';

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

const samples: readonly Uint8Array[] = [
  fitsImage16(
    [64],
    Array.from({ length: 64 }, (_, i) => i),
    [card('BSCALE', '0.5'), card('BLANK', '-1')],
  ),
  fitsImage16(
    [8, 8],
    Array.from({ length: 64 }, (_, i) => i),
  ),
  encode(
    `##TITLE=a\n##JCAMP-DX=4.24\n##XUNITS=NANOMETERS\n##FIRSTX=600\n##LASTX=605\n##NPOINTS=6\n##XFACTOR=1\n##YFACTOR=1\n##XYDATA=(X++(Y..Y))\n600A00L%%m%\n605I9\n##END=\n`,
  ),
  encode(
    `Time (ms): 20\nnm;counts\n${Array.from({ length: 64 }, (_, i) => `${(600 + 0.25 * i).toFixed(2).replace('.', ',')};${i % 9}`).join('\n')}\nend\n`,
  ),
];

describe('readFrameFile', () => {
  it('tells the format by the content', () => {
    expect(samples.map(frameFormat)).toEqual(['fits', 'fits', 'jcamp', 'text']);
    expect(frameFormat(new Uint8Array(Buffer.from('\ufeff##TITLE= a', 'utf16le')))).toBe('jcamp');
  });

  it('either reads a damaged file or refuses it in one line: no other error, no endless loop', () => {
    const damage = fc.array(
      fc.tuple(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.constantFrom('set', 'drop', 'double', 'cut'),
        fc.integer({ min: 0, max: 255 }),
      ),
      { minLength: 1, maxLength: 6 },
    );
    let refused = 0;
    let accepted = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...samples),
        damage,
        fc.constantFrom(64, 8, 6, null),
        (sample, steps, pixels) => {
          let bytes = Array.from(sample);
          for (const [where, kind, value] of steps) {
            // Half of the damage goes into the header, where it tells most.
            const at = Math.floor(where * bytes.length * (value % 2 === 0 ? 1 : 0.05));
            if (kind === 'set') bytes[at] = value;
            else if (kind === 'drop') bytes.splice(at, 1 + (value % 3));
            else if (kind === 'double') bytes.splice(at, 0, ...bytes.slice(at, at + 1 + (value % 90)));
            else if (value < 40) bytes = bytes.slice(0, at);
          }
          try {
            const { scans, images } = readFrameFile(Uint8Array.from(bytes), 'a.dat', pixels);
            expect(scans.length + images.length).toBeGreaterThan(0);
            accepted++;
          } catch (error) {
            if (!(error instanceof BadInputError)) throw error;
            expect(error.message).toMatch(/^a\.dat: [^\n]+; [^\n]+$/);
            refused++;
          }
        },
      ),
      { numRuns: 3000, seed: 20260131 },
    );
    expect(refused).toBeGreaterThan(500);
    expect(accepted).toBeGreaterThan(100);
  });
});
