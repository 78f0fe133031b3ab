import { expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { patchSearch } from './patchSearch.js';

it.each([
  [3, 1.5],
  [9, 1],
])('reports the squares of side %i that a plain sum over each finds', (size, deviation) => {
  const [width, height] = [23, 17];
  const stream = randomStream(3);
  const values = new Float32Array(width * height);
  const known = new Uint8Array(width * height);
  for (let k = 0; k < values.length; k++) {
    known[k] = stream.uniform() < 0.8 ? 1 : 0;
    // Whole numbers of eighths: sums are exact, in any order.
    if (known[k] === 1) values[k] = Math.round(8 * stream.normal()) / 8;
  }
  const expected: [number, number][] = [];
  const half = size >> 1;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let sum = 0;
      let n = 0;
      for (let v = Math.max(0, y - half); v <= Math.min(height - 1, y + half); v++) {
        for (let u = Math.max(0, x - half); u <= Math.min(width - 1, x + half); u++) {
          sum += values[v * width + u]!;
          n += known[v * width + u]!;
        }
      }
      if (n >= 3 && sum > deviation * Math.sqrt(n)) expected.push([x, y]);
    }
  }
  const found: [number, number][] = [];
  const search = patchSearch(width, height, size, deviation, (x, y) => found.push([x, y]));
  for (let y = 0; y < height; y++) {
    search.push(values.subarray(y * width, (y + 1) * width), known.subarray(y * width, (y + 1) * width));
  }
  search.finish();
  expect(found).toEqual(expected);
  expect(found.length).toBeGreaterThan(5);
});
