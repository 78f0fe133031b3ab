import { describe, expect, it } from 'vitest';
import { claimStep } from './claimStep.js';

describe('claimStep', () => {
  it.each([
    [3, 1],
    [7, 1],
    [500, 1],
    [3.2, 0.1],
    [656.28, 0.01],
    [0.5, 0.1],
    [1e-7, 1e-7],
    [2.5e-7, 1e-8],
  ])('%s nm is known to %s', (value, step) => {
    expect(claimStep({ value }, false)).toBe(step);
  });

  it.each([
    [0.9, 0.01],
    [1, 0.01],
    [0.92, 0.01],
    [0.915, 0.001],
  ])('a transmittance of %s is known to %s', (value, step) => {
    expect(claimStep({ value }, true)).toBe(step);
  });

  it('takes limits and tolerances as written', () => {
    expect(claimStep({ value: 3, tolerance: 0.5 }, false)).toBeNull();
    expect(claimStep({ atLeast: 0.9 }, true)).toBeNull();
    expect(claimStep({ atMost: 3 }, false)).toBeNull();
  });
});
