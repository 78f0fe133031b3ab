import { expect, it } from 'vitest';
import { firstAbove } from './firstAbove.js';

it('firstAbove finds the first value above a limit, a value at the limit passed over', () => {
  const x = Float64Array.of(0, 1, 1, 2, 3, 4, 5, 6, 7);
  expect([-1, 0, 1, 0.5, 8].map((limit) => firstAbove(x, limit))).toEqual([0, 1, 3, 1, 9]);
  expect(firstAbove([], 0)).toBe(0);
});
