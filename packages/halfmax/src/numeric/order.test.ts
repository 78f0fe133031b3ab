import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crossings } from './crossings.js';
import { evaluatePolynomial } from './evaluatePolynomial.js';
import { interpolateLinear } from './interpolateLinear.js';
import { median } from './median.js';
import { medianAbsoluteDeviation } from './medianAbsoluteDeviation.js';
import { normalQuantile } from './normalQuantile.js';
import { quantile } from './quantile.js';

describe('median, medianAbsoluteDeviation and quantile', () => {
  it('have the values that a head can check', () => {
    expect(median([5])).toBe(5);
    expect(median([3, 1, 2])).toBe(2);
    expect(median([10, 2, 1, 3])).toBe(2.5);
    expect(quantile([4, 1, 3, 2], 0)).toBe(1);
    expect(quantile([4, 1, 3, 2], 1)).toBe(4);
    expect(quantile([10, 20, 30, 40, 50], 0.1)).toBe(14);
    expect(median([2, 10, 1, 9])).toBe(5.5); // by number, not by text
  });

  it('scale the deviation so that it estimates that of normal values', () => {
    const values = Array.from({ length: 1001 }, (_, i) => 3 + 2 * normalQuantile((i + 0.5) / 1001));
    expect(medianAbsoluteDeviation(values)).toBeCloseTo(2, 2);
  });

  it('move and stretch with the values, in any order', () => {
    const values = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(values, fc.integer({ min: -50, max: 50 }), (list, shift) => {
        const moved = list.map((value) => 2 * value + shift).reverse();
        expect(median(moved)).toBe(2 * median(list) + shift);
        expect(medianAbsoluteDeviation(moved)).toBeCloseTo(2 * medianAbsoluteDeviation(list), 9);
        expect(quantile(list, 0.5)).toBe(median(list));
      }),
    );
  });

  it('leave the values as they were', () => {
    const values = Float64Array.of(3, 1, 2);
    quantile(values, 0.3);
    medianAbsoluteDeviation(values);
    expect(values).toEqual(Float64Array.of(3, 1, 2));
  });

  it('refuse none, NaN and a probability out of range', () => {
    expect(() => median([])).toThrow('median requires at least 1 value, got 0');
    expect(() => median([1, Number.NaN, 2])).toThrow('got NaN at index 1');
    expect(() => medianAbsoluteDeviation([])).toThrow(RangeError);
    expect(() => quantile([1], 1.1)).toThrow('quantile requires p from 0 to 1, got 1.1');
  });
});

describe('interpolateLinear', () => {
  it('meets the samples and runs straight between them', () => {
    const x = [1, 2, 4, 8];
    const y = [3, -1, 5, 6];
    x.forEach((at, i) => void expect(interpolateLinear(x, y, at)).toBe(y[i]));
    expect(interpolateLinear(x, y, 3)).toBe(2);
    expect(interpolateLinear(x, y, 7)).toBe(5.75);
    expect(interpolateLinear([2], [9], 2)).toBe(9);
  });

  it('does not go outside', () => {
    expect(() => interpolateLinear([1, 2], [1, 2], 2.0001)).toThrow('from 1 to 2, got 2.0001');
    expect(() => interpolateLinear([1, 2], [1, 2], Number.NaN)).toThrow(RangeError);
    expect(() => interpolateLinear([], [], 1)).toThrow(RangeError);
    expect(() => interpolateLinear([1, 2], [1], 1)).toThrow(RangeError);
  });
});

describe('crossings', () => {
  it('finds them in order, rising and falling', () => {
    expect(crossings([0, 1, 2, 3, 4], [0, 1, 0, 1, 0], 0.25)).toEqual([0.25, 1.75, 2.25, 3.75]);
    expect(crossings([0, 1, 2], [0, 1, 2], 5)).toEqual([]);
    expect(crossings([], [], 5)).toEqual([]);
  });

  it('takes a sample on the level once, and the middle of a stretch on it', () => {
    expect(crossings([0, 1, 2], [0, 1, 2], 1)).toEqual([1]);
    expect(crossings([0, 1, 2, 3, 4], [0, 1, 1, 1, 2], 1)).toEqual([2]);
  });

  it('does not take a touch, nor the level met at an end', () => {
    expect(crossings([0, 1, 2], [0, 1, 0], 1)).toEqual([]);
    expect(crossings([0, 1, 2], [1, 2, 1], 1)).toEqual([]);
  });

  it('lies on the level and mirrors with the curve', () => {
    const curve = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 2, maxLength: 30 });
    fc.assert(
      fc.property(curve, fc.double({ min: -0.9, max: 0.9, noNaN: true }), (y, level) => {
        const x = y.map((_, i) => i);
        const found = crossings(x, y, level);
        for (const at of found) expect(Math.abs(interpolateLinear(x, y, at) - level)).toBeLessThan(1e-12);
        const mirrored = crossings(x, [...y].reverse(), level)
          .map((at) => y.length - 1 - at)
          .reverse();
        expect(mirrored.length).toBe(found.length);
        mirrored.forEach((at, i) => void expect(at).toBeCloseTo(found[i]!, 9));
      }),
    );
  });

  it('refuses NaN and lengths that differ', () => {
    expect(() => crossings([0, 1], [0, Number.NaN], 0.5)).toThrow('got NaN at index 1');
    expect(() => crossings([0, 1], [0, 1], Number.NaN)).toThrow(RangeError);
    expect(() => crossings([0, 1], [0], 0.5)).toThrow(RangeError);
  });
});

describe('evaluatePolynomial', () => {
  it('adds up powers', () => {
    expect(evaluatePolynomial([], 3)).toBe(0);
    expect(evaluatePolynomial([7], 3)).toBe(7);
    expect(evaluatePolynomial([1, -2, 0, 4], 2)).toBe(29);
  });
});
