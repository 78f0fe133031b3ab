import { describe, expect, it } from 'vitest';
import { acceptanceInterval } from './acceptanceInterval.js';
import { guardBand } from './guardBand.js';
import { toleranceInterval } from './toleranceInterval.js';

describe('guardBand', () => {
  it('is r k u, or the quantile of the largest risk', () => {
    expect(guardBand(0.3, { multiple: 0.5 })).toBeCloseTo(0.3, 15);
    expect(guardBand(0.3, { multiple: 1, coverageFactor: 3 })).toBeCloseTo(0.9, 15);
    // A risk of one half on the limit itself needs no guard band.
    expect(guardBand(0.3, { maximumRisk: 0.5 })).toBeCloseTo(0, 15);
    expect(guardBand(0.3, { maximumRisk: 0.9 })).toBeLessThan(0);
  });

  it.each([
    [-1, { multiple: 1 }],
    [1, { multiple: Number.NaN }],
    [1, { multiple: 1, coverageFactor: 0 }],
    [1, { maximumRisk: 0 }],
  ])('refuses u %d with %j', (u, request) => {
    expect(() => guardBand(u, request)).toThrow(RangeError);
  });
});

describe('acceptanceInterval', () => {
  it('narrows each side that is closed', () => {
    expect(acceptanceInterval({ from: 1, to: 3 }, 0.25)).toEqual({ from: 1.25, to: 2.75 });
    expect(acceptanceInterval({ from: 1 }, 0.25)).toEqual({ from: 1.25 });
    expect(acceptanceInterval({ to: 3 }, -0.25)).toEqual({ to: 3.25 });
    expect(acceptanceInterval({ from: 1, to: 3 }, 1)).toEqual({ from: 2, to: 2 });
    expect(acceptanceInterval({ from: 1, to: 3 }, 1.01)).toHaveProperty('absent');
    expect(() => acceptanceInterval({ to: 3 }, Number.NaN)).toThrow(RangeError);
  });
});

describe('toleranceInterval', () => {
  it('reads each shape of claim', () => {
    expect(toleranceInterval({ value: 3, tolerance: 0.5 })).toEqual({ from: 2.5, to: 3.5 });
    expect(toleranceInterval({ value: 3, tolerance: [0.5, 1] })).toEqual({ from: 2.5, to: 4 });
    expect(toleranceInterval({ atLeast: 3 })).toEqual({ from: 3 });
    expect(toleranceInterval({ atMost: 3 })).toEqual({ to: 3 });
    expect(toleranceInterval({ value: 3 })).toHaveProperty('absent');
    expect(() => toleranceInterval({ value: 3, tolerance: [0.5, -1] })).toThrow('got 0.5 and -1');
  });
});
