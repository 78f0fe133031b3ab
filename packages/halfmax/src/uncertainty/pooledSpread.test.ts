import { describe, expect, it } from 'vitest';
import { pooledSpread, type Spread } from './pooledSpread.js';

describe('pooledSpread', () => {
  it('gives the spread of all values from the figures of unequal blocks', () => {
    // Block (mean, standard deviation with divisor n - 1): 1, 2, 3 (2, 1); 4, 8 (6, 2 sqrt 2); 7, 7 (7, 0).
    let total: Spread = { count: 0, mean: 0, squares: 0 };
    total = pooledSpread(total, 3, 2, 1);
    expect(total).toEqual({ count: 3, mean: 2, squares: 2 });
    total = pooledSpread(total, 2, 6, 2 * Math.SQRT2);
    total = pooledSpread(total, 2, 7, 0);
    // 1, 2, 3, 4, 8, 7, 7: mean 32/7, sum of squares 192 - 32^2 / 7.
    expect(total.count).toBe(7);
    expect(total.mean).toBeCloseTo(32 / 7, 14);
    expect(total.squares).toBeCloseTo(192 - 1024 / 7, 12);
  });
});
