import { expect, it } from 'vitest';
import { edgeVariance } from './edgeVariance.js';

it('adds the unknown shape of an edge to the cells about it, alike for all sectors of a ring', () => {
  const sectors = 4;
  const radii = [10, 30, 50];
  const table = {
    sectors,
    width: new Float64Array(3).fill(1),
    variance: new Float64Array(12).fill(2),
  };
  const places = {
    x: Float64Array.from({ length: 12 }, (_, k) => radii[Math.floor(k / sectors)]! * [1, 0, -1, 0][k % 4]!),
    y: Float64Array.from({ length: 12 }, (_, k) => radii[Math.floor(k / sectors)]! * [0, 1, 0, -1][k % 4]!),
  };
  const disk = { surface: 100, inner: 10, outer: 50, dx: 0, dy: 0, blur: 1.5 };
  const free = { radiusFree: true, holeFree: true, placeFree: false };
  const before = table.variance.slice();
  const variance = edgeVariance(table, places, [{ ...disk, ...free }]);
  // 2 % of 100 counts, common to 4 sectors: 4 x 2^2 at both edges; nothing 20 pixels from them.
  for (const k of [0, 3, 8, 11]) expect(variance[k]).toBeCloseTo(2 + 16, 10);
  for (const k of [4, 7]) expect(variance[k]).toBeCloseTo(2, 6);
  expect(table.variance).toEqual(before);
});
