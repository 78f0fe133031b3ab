import { inflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { choosePalette } from '../../packages/halfmax-notebook/src/still/choosePalette.js';
import { encodePalettePng } from '../../packages/halfmax-notebook/src/still/encodePalettePng.js';
import { encodePng } from '../../packages/halfmax-notebook/src/still/encodePng.js';
import { straightColours } from '../../packages/halfmax-notebook/src/still/straightColours.js';

/** Chunks of a file by type, with their data. Source: ISO/IEC 15948, chunk layout. */
function chunksOf(png: Uint8Array): Map<string, Buffer> {
  const bytes = Buffer.from(png);
  const chunks = new Map<string, Buffer>();
  for (let at = 8; at < bytes.length; ) {
    const length = bytes.readUInt32BE(at);
    chunks.set(bytes.toString('latin1', at + 4, at + 8), bytes.subarray(at + 8, at + 8 + length));
    at += 12 + length;
  }
  return chunks;
}

/** Red, green, blue and opacity of the pixels of an indexed file without filters. */
function pixelsOf(png: Uint8Array, width: number, height: number): number[] {
  const chunks = chunksOf(png);
  const rows = inflateSync(chunks.get('IDAT')!);
  expect(rows).toHaveLength((width + 1) * height);
  const palette = chunks.get('PLTE')!;
  const opacity = chunks.get('tRNS');
  return Array.from({ length: height }, (_, y) => {
    expect(rows[(width + 1) * y]).toBe(0);
    return [...rows.subarray((width + 1) * y + 1, (width + 1) * (y + 1))];
  })
    .flat()
    .flatMap((place) => [...palette.subarray(3 * place, 3 * place + 3), opacity?.[place] ?? 255]);
}

/** A row of pixels, each grey given so often. */
const greys = (counts: readonly (readonly [grey: number, count: number])[]): Uint8Array =>
  Uint8Array.from(
    counts.flatMap(([grey, count]) => Array.from({ length: count }, () => [grey, grey, grey, 255]).flat()),
  );

describe('encodePng', () => {
  it('holds the pixels that went in', () => {
    const pixels = Uint8Array.of(255, 0, 0, 255, 0, 255, 0, 128);
    const png = Buffer.from(encodePng(pixels, 1, 2));
    expect(png.subarray(1, 4).toString()).toBe('PNG');
    expect([...inflateSync(chunksOf(png).get('IDAT')!)]).toEqual([0, 255, 0, 0, 255, 0, 0, 255, 0, 128]);
    // The check sum of an empty IEND is the same in every PNG: AE 42 60 82.
    expect(png.subarray(-4).toString('hex')).toBe('ae426082');
  });
});

describe('encodePalettePng', () => {
  it('holds up to 128 colours as they are, opaque or not', () => {
    const pixels = Uint8Array.from({ length: 4 * 256 }, (_, i) =>
      i % 4 === 3 ? [255, 128][(i >> 2) & 1]! : ((i >> 2) % 64) * (1 + (i % 4)),
    );
    const png = encodePalettePng(pixels, 32, 8);
    expect([...chunksOf(png).get('IHDR')!]).toEqual([0, 0, 0, 32, 0, 0, 0, 8, 8, 3, 0, 0, 0]);
    expect(pixelsOf(png, 32, 8)).toEqual([...pixels]);
    expect(chunksOf(encodePalettePng(greys([[1, 4]]), 4, 1)).has('tRNS')).toBe(false);
  });

  it('keeps frequent colours and changes rare ones as little as the number of colours lets it', () => {
    // 256 greys in 128 colours: pairs of neighbours, so that none is off by more than 1; white is the most frequent.
    const pixels = greys(Array.from({ length: 256 }, (_, grey) => [grey, grey === 255 ? 100 : 1] as const));
    const width = pixels.length / 4;
    const shown = pixelsOf(encodePalettePng(pixels, width, 1), width, 1);
    expect(Math.max(...shown.map((value, i) => Math.abs(value - pixels[i]!)))).toBe(1);
    expect(shown.slice(-400)).toEqual([...pixels.slice(-400)]);
  });

  it('gives the same bytes again', () => {
    const pixels = Uint8Array.from({ length: 40_000 }, (_, i) => (i % 4 === 3 ? 255 : (i * i) % 251));
    const [one, other] = [encodePalettePng(pixels, 100, 100), encodePalettePng(pixels.slice(), 100, 100)];
    expect(Buffer.compare(one, other)).toBe(0);
    expect(() => encodePalettePng(pixels, 99, 100)).toThrow('requires 39600 bytes, got 40000');
  });
});

describe('choosePalette', () => {
  it('says how far the farthest colour is from its stand-in', () => {
    const counts = new Map([
      [0xffffffff, 50],
      [0x000000ff, 20],
      [0xf8ffffff, 3],
      [0x0000030a, 1],
    ]);
    expect(choosePalette(counts, 4)).toMatchObject({ mostOff: 0 });
    const three = choosePalette(counts, 3);
    expect(three.colours).toEqual([0xffffffff, 0x000000ff, 0x0000030a]);
    expect(three.mostOff).toBe(7);
    expect(three.placeOf.get(0xf8ffffff)).toBe(0);
    expect(choosePalette(counts, 2).mostOff).toBe(245);
    expect(() => choosePalette(counts, 0)).toThrow('a whole number of colours from 1, got 0');
  });
});

describe('straightColours', () => {
  it('takes the opacity out of the colours', () => {
    // Paint of (200, 100, 50) at one half is held as (100, 50, 25, 128).
    expect([...straightColours(Uint8Array.of(100, 50, 25, 128, 9, 8, 7, 255, 0, 0, 0, 0))]).toEqual([
      199, 100, 50, 128, 9, 8, 7, 255, 0, 0, 0, 0,
    ]);
  });
});
