import { describe, expect, it } from 'vitest';
import { numericalTolerance } from './numericalTolerance.js';

describe('numericalTolerance', () => {
  // u = 0.0004 stands in JCGM 101:2008, 7.9.2; the others follow from its rule.
  it.each([
    [0.00035, 2, 0.000005],
    [0.0004, 1, 0.00005],
    [2, 1, 0.5],
    [2, 2, 0.05],
    [0.001, 1, 0.0005],
    [0.001, 2, 0.00005],
    [1000, 1, 500],
    [999, 1, 50],
    [35.81, 2, 0.5],
    [1e-30, 2, 5e-32],
  ])('of u = %d to %d digits is %d', (u, digits, tolerance) => {
    expect(numericalTolerance(u, digits)).toBe(tolerance);
  });

  it.each([
    [0, 2],
    [-1, 2],
    [Number.NaN, 1],
    [1, 3],
    [1, 0],
  ])('refuses u = %d with %d digits', (u, digits) => {
    expect(() => numericalTolerance(u, digits)).toThrow(RangeError);
  });
});
