import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { brightestCounts } from './brightestCounts.js';
import { frameShift } from './frameShift.js';
import { levelRatio } from './levelRatio.js';
import { lineariseCounts } from './lineariseCounts.js';
import { medianFrame } from './medianFrame.js';
import { pooledVariance } from './pooledVariance.js';
import { saturationMask } from './saturationMask.js';
import { percent, plainNumber } from './wording.js';

describe('saturationMask', () => {
  it('widens a saturated pixel by one, not an undefined one, and stays inside the array', () => {
    expect([...saturationMask(Float64Array.of(9, 1, 1, Number.NaN, 1, 9), 9)]).toEqual([1, 1, 0, 1, 1, 1]);
  });
});

describe('lineariseCounts', () => {
  it('is measured times the polynomial in measured', () => {
    // 1000 (1 + 0.02 - 0.003)
    expect(lineariseCounts(Float64Array.of(1000, 0), [1, 2e-5, -3e-9])[0]).toBeCloseTo(1017, 9);
    const counts = Float64Array.of(5, Number.NaN);
    expect(lineariseCounts(counts, null)).toEqual(counts);
    expect(lineariseCounts(counts, null)).not.toBe(counts);
  });
});

describe('brightestCounts', () => {
  it('passes over a single bright pixel', () => {
    expect(brightestCounts(Float64Array.of(0, 900, 0, 0, 10, 30, 20, 0))).toBe(20);
  });
});

describe('medianFrame', () => {
  const frames = [Float64Array.of(1, Number.NaN), Float64Array.of(5, 2), Float64Array.of(3, 4)];
  it('leaves out undefined values and the frame named', () => {
    expect([...medianFrame(frames)]).toEqual([3, 3]);
    expect([...medianFrame(frames, 1)]).toEqual([2, 4]);
    expect(() => medianFrame([])).toThrow('medianFrame requires at least 1 frame, got 0');
  });
});

describe('levelRatio', () => {
  it('finds level and tilt exactly where there is no noise', () => {
    const reference = Float64Array.from({ length: 101 }, (_, i) => 100 + 50 * Math.sin(i / 9));
    const frame = reference.map((value, i) => value * (1.1 - 0.03 * ((2 * i) / 100 - 1)));
    const found = levelRatio(frame, reference, new Float64Array(101).fill(1));
    expect(found.level).toBeCloseTo(1.1, 12);
    expect(found.tilt).toBeCloseTo(-0.03, 12);
  });
});

describe('frameShift', () => {
  it.each([0, 0.25, -0.4, 3.3, -12])('finds a shift of %f pixels of lines 1.6 pixels wide', (shift) => {
    const line = (i: number): number =>
      [40, 90, 97, 150].reduce((sum, at, k) => sum + (1 + k) * Math.exp(-0.5 * ((i - at) / 1.6) ** 2), 0);
    const reference = Float64Array.from({ length: 200 }, (_, i) => line(i));
    const frame = Float64Array.from({ length: 200 }, (_, i) => line(i - shift));
    // a parabola through three points of a Gaussian correlation 2.3 wide errs by less than 0.02
    expect(Math.abs(frameShift(frame, reference, 0).shiftPixels - shift)).toBeLessThan(0.02);
  });
});

describe('pooledVariance', () => {
  it.each([1, 2, 9])('is unbiased for normal noise, %i degrees of freedom, hits or not', (dof) => {
    const random = randomStream(5);
    const variances = Array.from({ length: 20000 }, (_, i) => {
      let sum = 0;
      for (let k = 0; k < dof; k++) sum += (3 * random.normal()) ** 2;
      return i % 100 === 0 ? 1e6 : sum / dof;
    });
    const found = pooledVariance(variances, dof);
    expect(found.values).toBeGreaterThan(19790);
    expect(found.values).toBeLessThanOrEqual(19800);
    expect(Math.abs(found.variance - 9)).toBeLessThan(3 * found.standardUncertainty);
  });
});

describe('wording', () => {
  it('prints plain numbers', () => {
    expect(percent(0.0123)).toBe('1.2 %');
    expect(plainNumber(60012, 3)).toBe('60012');
    expect(plainNumber(775.4, 3)).toBe('775');
    expect(plainNumber(0.04567, 2)).toBe('0.046');
  });
});
