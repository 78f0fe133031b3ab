import { describe, expect, it } from 'vitest';
import { conformanceProbability, normalInside } from './conformanceProbability.js';
import type { Prior } from './prior.js';

describe('conformanceProbability', () => {
  it('adds up to 1 over the two sides of a limit', () => {
    const measured = { value: 3.2, standardUncertainty: 0.4 };
    const below = conformanceProbability(measured, { to: 3.7 });
    expect(below + conformanceProbability(measured, { from: 3.7 })).toBeCloseTo(1, 14);
    expect(conformanceProbability(measured, {})).toBe(1);
  });

  it('keeps its digits far out in the upper tail as in the lower', () => {
    const up = normalInside(0, 1, { from: 10, to: 11 });
    expect(up).toBe(normalInside(0, 1, { from: -11, to: -10 }));
    // Abramowitz and Stegun, table 26.2: Q(10) = 7.61985e-24.
    expect(up / 7.61985e-24).toBeCloseTo(1, 4);
  });

  it('is 0 for an interval turned inside out', () => {
    expect(normalInside(0, 1, { from: 1, to: -1 })).toBe(0);
    expect(normalInside(0, 0, { from: 1, to: -1 })).toBe(0);
  });

  it('with an exponential prior has the closed form of a shifted, cut normal distribution', () => {
    // exp(-x/s) times N(x; y, u) is N(x; y - u^2/s, u) cut at 0.
    const [y, u, s, limit] = [0.5, 0.4, 0.8, 1];
    const prior: Prior = { kind: 'gamma', shape: 1, scale: s };
    const shifted = y - u ** 2 / s;
    const wanted = normalInside(shifted, u, { from: 0, to: limit }) / normalInside(shifted, u, { from: 0 });
    expect(conformanceProbability({ value: y, standardUncertainty: u }, { to: limit }, prior)).toBeCloseTo(
      wanted,
      12,
    );
  });

  it('with a prior far wider than the measurement is the probability without it', () => {
    const measured = { value: 3.2, standardUncertainty: 0.4 };
    const plain = conformanceProbability(measured, { from: 3, to: 3.7 });
    const wide: Prior = { kind: 'normal', mean: 0, standardUncertainty: 1e6 };
    expect(conformanceProbability(measured, { from: 3, to: 3.7 }, wide)).toBeCloseTo(plain, 10);
  });

  it('refuses a prior beside draws, and one that rules the measurement out', () => {
    const prior: Prior = { kind: 'gamma', shape: 4, scale: 0.25 };
    expect(() => conformanceProbability({ samples: [1, 2] }, { to: 2 }, prior)).toThrow('beside a prior');
    const far = { value: -100, standardUncertainty: 0.1 };
    expect(() => conformanceProbability(far, { to: 2 }, prior)).toThrow('permits the measurement, got -100');
    const pole: Prior = { kind: 'gamma', shape: 0.5, scale: 1 };
    expect(() => conformanceProbability({ value: 1, standardUncertainty: 1 }, { to: 2 }, pole)).toThrow(
      'shape >= 1',
    );
  });
});
