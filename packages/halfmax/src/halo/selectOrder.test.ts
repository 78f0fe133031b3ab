import { expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { selectOrder } from './selectOrder.js';

it('finds what a full sort finds, and keeps the values', () => {
  const stream = randomStream(3);
  for (let n = 1; n < 60; n++) {
    // Few distinct values, so that ties are met.
    const values = Float64Array.from({ length: n + 4 }, () => Math.floor(8 * stream.uniform()));
    const sorted = values.slice(2, n + 2).sort();
    const k = Math.floor(n * stream.uniform());
    const outside = [values[0], values[1], values[n + 2], values[n + 3]];
    expect(selectOrder(values, 2, n + 2, 2 + k)).toBe(sorted[k]);
    expect(values.slice(2, n + 2).sort()).toEqual(sorted);
    expect([values[0], values[1], values[n + 2], values[n + 3]]).toEqual(outside);
  }
});
