import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { polarGrid } from './polarGrid.js';
import { ringEdges } from './ringEdges.js';
import { starImage } from './starImage.js';

// From numpy: see tests/reference/halo/generate.py.
const reference = JSON.parse(
  readFileSync(new URL('../../../../tests/reference/halo/data.json', import.meta.url), 'utf8'),
);

describe('polarGrid', () => {
  const { width, height, sectors, centre, edges, cells } = reference;
  const counts = new Float64Array(width * height);
  const mask = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const k = x + width * y;
      const pattern = Number((BigInt(k) * 2654435761n) % 4294967296n);
      counts[k] = (pattern % 1000) + Math.floor(200000 / (1 + (x - 43) ** 2 + (y - 39) ** 2)) + 3 * x;
      mask[k] = Math.floor(pattern / 7) % 11 === 0 ? 1 : 0;
    }
  }
  const before = counts.slice();
  const grid = polarGrid(
    starImage(width, height, counts),
    mask,
    { x: centre[0], y: centre[1] },
    Float64Array.from(edges),
    sectors,
  );

  it('gives the pixels, medians and middle means of numpy in every cell', () => {
    cells.forEach(
      ([used, inImage, median, middleMean]: [number, number, number | null, number | null], c: number) => {
        expect(grid.pixels[c]).toBe(used);
        expect(grid.pixelsInImage[c]).toBe(inImage);
        // Whole numbers: medians are exact, means differ by rounding only.
        if (median === null) expect(grid.medians[c]).toBeNaN();
        else expect(grid.medians[c]).toBe(median);
        if (middleMean !== null) expect(grid.counts[c]! / middleMean).toBeCloseTo(1, 12);
      },
    );
  });

  it('gives the same in memory that was used before', () => {
    const image = starImage(width, height, counts);
    const room = new Float32Array(width * height).fill(7);
    const again = polarGrid(
      image,
      mask,
      { x: centre[0], y: centre[1] },
      Float64Array.from(edges),
      sectors,
      room,
    );
    expect(again).toEqual(grid);
  });

  it('leaves the image as it was', () => {
    expect(counts).toEqual(before);
  });

  it('refuses a mask of another size too few sectors and too little room', () => {
    const image = starImage(4, 4, new Float32Array(16));
    expect(() => polarGrid(image, new Uint8Array(3), { x: 1, y: 1 }, ringEdges(2), 8)).toThrow('mask of 16');
    expect(() => polarGrid(image, new Uint8Array(16), { x: 1, y: 1 }, ringEdges(2), 3)).toThrow('4 sectors');
    const room = new Float32Array(15);
    expect(() => polarGrid(image, new Uint8Array(16), { x: 1, y: 1 }, ringEdges(2), 8, room)).toThrow(
      'room for 16',
    );
  });
});
