import { describe, expect, it } from 'vitest';
import { coverageInterval } from './coverageInterval.js';

const ranks = (m: number): number[] => Array.from({ length: m }, (_, i) => i + 1);

describe('coverageInterval', () => {
  it('takes the 250th and the 9750th of 10 000 values at 95 % (JCGM 101:2008, 7.7)', () => {
    expect(coverageInterval(ranks(10_000), 0.95).symmetric).toEqual([250, 9750]);
  });

  it('rounds q and r to whole numbers where pM or M - q asks for it', () => {
    // M = 15, p = 0.9: q = int(13.5 + 0.5) = 14, r = int((1 + 1) / 2) = 1.
    expect(coverageInterval(ranks(15), 0.9).symmetric).toEqual([1, 15]);
    // M = 101, p = 0.95: q = int(95.95 + 0.5) = 96, r = int((5 + 1) / 2) = 3.
    expect(coverageInterval(ranks(101), 0.95).symmetric).toEqual([3, 99]);
  });

  it('finds the shortest interval on the steep side of an exponential', () => {
    // Quantiles of the exponential: the density falls everywhere, so the shortest interval starts at the lowest value.
    const sorted = ranks(1000).map((i) => -Math.log(1 - (i - 0.5) / 1000));
    const { shortest, symmetric } = coverageInterval(sorted, 0.95);
    expect(shortest).toEqual([sorted[0], sorted[950]]);
    expect(symmetric).toEqual([sorted[24], sorted[974]]);
  });

  it('takes the first of several intervals of the same length', () => {
    expect(coverageInterval([0, 1, 2, 3, 4, 5, 6, 7, 8, 9], 0.5).shortest).toEqual([0, 5]);
  });

  it('mirrors with the sample', () => {
    const sorted = [-3, 0, 1, 1.5, 1.75, 2, 2.5, 4, 9, 30];
    const mirrored = sorted.map((value) => -value).reverse();
    const { shortest } = coverageInterval(sorted, 0.6);
    expect(coverageInterval(mirrored, 0.6).shortest).toEqual([-shortest[1], -shortest[0]]);
  });

  it.each([
    [9, 0.95, 'more values'],
    [0, 0.5, 'more values'],
    [100, 1, 'coverage between 0 and 1, got 1'],
    [100, Number.NaN, 'coverage between 0 and 1, got NaN'],
  ])('refuses %d values at %d', (m, p, message) => {
    expect(() => coverageInterval(ranks(m), p)).toThrow(message);
  });
});
