import { describe, expect, it } from 'vitest';
import { absent, isAbsent, quantity } from './quantity.js';

describe('quantity', () => {
  it('gives the central 95 % of a normal distribution', () => {
    // 1.959964: 97.5 % point of the normal distribution, any handbook table
    const [low, high] = quantity(7, 0.1).interval95;
    expect(low).toBeCloseTo(7 - 0.1959964, 7);
    expect(high).toBeCloseTo(7 + 0.1959964, 7);
  });

  it.each([
    [Number.NaN, 0, 'finite value'],
    [1, -0.1, '0 or more'],
    [1, Number.NaN, '0 or more'],
    [1, Number.POSITIVE_INFINITY, '0 or more'],
  ])('refuses value %d with uncertainty %d', (value, u, message) => {
    expect(() => quantity(value, u)).toThrow(RangeError);
    expect(() => quantity(value, u)).toThrow(message);
  });

  it('tells a reason from a number', () => {
    expect(isAbsent(absent('no band'))).toBe(true);
    expect(isAbsent(quantity(0, 0))).toBe(false);
  });
});
