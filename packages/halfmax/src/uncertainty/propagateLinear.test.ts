import { describe, expect, it } from 'vitest';
import { compareLinear } from './compareLinear.js';
import { effectiveDegreesOfFreedom } from './effectiveDegreesOfFreedom.js';
import { linearInterval } from './linearInterval.js';
import { propagateLinear } from './propagateLinear.js';

describe('propagateLinear', () => {
  it('is exact for a linear model with correlated inputs', () => {
    const covariance = [
      [4, 1, 0],
      [1, 9, -2],
      [0, -2, 1],
    ];
    const {
      values,
      covariance: result,
      standardUncertainties,
    } = propagateLinear(
      (x, out) => {
        out[0] = 2 * x[0]! - x[1]! + 3;
        out[1] = x[2]! + x[1]!;
      },
      [1, 2, 3],
      covariance,
      2,
    );
    expect([...values]).toEqual([3, 5]);
    // 4*4 + 9 - 2*2*1 = 21; 9 + 1 - 4 = 6; cov = 2*1 - 9 + 2*0 + 2 = -5. Rounding of the differences, some 1e-15.
    expect(result[0]![0]).toBeCloseTo(21, 11);
    expect(result[1]![1]).toBeCloseTo(6, 11);
    expect(result[0]![1]).toBeCloseTo(-5, 11);
    expect(standardUncertainties[0]).toBeCloseTo(Math.sqrt(21), 12);
  });

  it('has the slopes of the closed form, also for an input without uncertainty', () => {
    const { sensitivities } = propagateLinear(
      (x, out) => {
        out[0] = Math.sin(x[0]!) * Math.exp(x[1]!);
      },
      [1, 0.5],
      [
        [1e-6, 0],
        [0, 0],
      ],
    );
    // Truncation: h^2/6 relative, h = 1e-4 for the first, 3e-6 for the second.
    expect(Math.abs(sensitivities[0]![0]! / (Math.cos(1) * Math.exp(0.5)) - 1)).toBeLessThan(2e-9);
    expect(Math.abs(sensitivities[0]![1]! / (Math.sin(1) * Math.exp(0.5)) - 1)).toBeLessThan(1e-9);
  });

  it('refuses what does not fit', () => {
    const identity = (x: Float64Array, out: Float64Array): void => {
      out[0] = x[0]!;
    };
    expect(() => propagateLinear(identity, [1, 2], [[1]])).toThrow('2 rows of covariance, got 1');
    expect(() => propagateLinear(identity, [1, 2], [[1, 0], [0]])).toThrow('2 columns in row 1, got 1');
    expect(() => propagateLinear(identity, [1], [[1]], 2)).toThrow('finite outputs, got NaN for output 1');
  });
});

describe('linearInterval', () => {
  it('takes 1.96 for the normal distribution and t for few degrees of freedom', () => {
    expect(linearInterval(0, 2, 0.95)[1]).toBeCloseTo(3.919928, 6);
    // JCGM 100:2008, table G.2: t at 99 % for 16 degrees of freedom is 2.92.
    expect(linearInterval(0, 1, 0.99, 16.98)[1]).toBeCloseTo(2.92, 2);
  });

  it.each([
    [-1, 0.95, 5],
    [1, 1, 5],
    [1, 0.95, 0.5],
  ])('refuses u %d, p %d, %d degrees of freedom', (u, p, v) => {
    expect(() => linearInterval(0, u, p, v)).toThrow(RangeError);
  });
});

describe('effectiveDegreesOfFreedom', () => {
  it('gives the degrees of freedom of one contribution, and n times those of n equal ones', () => {
    expect(effectiveDegreesOfFreedom([3], [7])).toBeCloseTo(7, 12);
    expect(effectiveDegreesOfFreedom([2, 2, 2], [5, 5, 5])).toBeCloseTo(15, 12);
    expect(effectiveDegreesOfFreedom([1], [Number.POSITIVE_INFINITY])).toBe(Number.POSITIVE_INFINITY);
  });

  it('gives the 19.0 of JCGM 100:2008, G.4.1, example', () => {
    // Relative uncertainties 0.25 %, 0.57 %, 0.82 % from 10, 5 and 15 readings (from memory).
    expect(effectiveDegreesOfFreedom([0.25, 0.57, 0.82], [9, 4, 14])).toBeCloseTo(19, 1);
  });

  it('refuses lengths that differ', () => {
    expect(() => effectiveDegreesOfFreedom([1, 2], [3])).toThrow('2 degrees of freedom, got 1');
    expect(() => effectiveDegreesOfFreedom([1], [0])).toThrow('> 0, got 0 at index 0');
  });
});

describe('compareLinear', () => {
  it('agrees when both ends are within the tolerance of the Monte Carlo uncertainty', () => {
    const monteCarlo = { standardUncertainty: 2.01, interval: [-3.92, 3.9] as const };
    expect(compareLinear(monteCarlo, { interval: [-3.88, 3.88] }, 2)).toMatchObject({
      agrees: true,
      tolerance: 0.05,
    });
    const low = compareLinear(monteCarlo, { interval: [-3.86, 3.9] }, 2);
    expect(low.agrees).toBe(false);
    expect(low.lowDistance).toBeCloseTo(0.06, 12);
    expect(low.highDistance).toBe(0);
    expect(compareLinear(monteCarlo, { interval: [-3.92, 3.96] }, 2).agrees).toBe(false);
    expect(compareLinear(monteCarlo, { interval: [-3.92, 3.96] }, 1).agrees).toBe(true);
  });
});
