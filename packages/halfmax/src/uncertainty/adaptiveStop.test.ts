import { describe, expect, it } from 'vitest';
import { adaptiveStop, type BlockSummary } from './adaptiveStop.js';

const steady: BlockSummary = { mean: 0, standardUncertainty: 2, low: -4, high: 4 };

describe('adaptiveStop', () => {
  it('never stops after one block', () => {
    expect(adaptiveStop([steady], 2, 1)).toMatchObject({
      enough: false,
      standardErrors: { absent: expect.any(String) },
    });
  });

  it('stops when twice the standard error of all four is no larger than the tolerance', () => {
    const decision = adaptiveStop([steady, steady], 2, 2);
    expect(decision).toEqual({
      enough: true,
      tolerance: 0.05,
      standardErrors: { mean: 0, standardUncertainty: 0, low: 0, high: 0 },
    });
  });

  it.each(['mean', 'standardUncertainty', 'low', 'high'] as const)(
    'goes on when %s alone is unsteady',
    (key) => {
      // Two blocks a distance d apart: standard error d / 2, twice that is d; the tolerance of u = 2 is 0.5.
      const moved = (d: number): BlockSummary[] => [steady, { ...steady, [key]: steady[key] + d }];
      expect(adaptiveStop(moved(0.5), 2, 1).enough).toBe(true);
      expect(adaptiveStop(moved(0.5001), 2, 1).enough).toBe(false);
      expect(adaptiveStop(moved(0.5), 2, 1, 5).enough).toBe(false);
      expect(adaptiveStop(moved(0.09), 2, 1, 5).enough).toBe(true);
    },
  );

  it('has the standard error of the mean of h blocks', () => {
    const blocks = [1, 2, 3, 4].map((mean) => ({ ...steady, mean }));
    // Sample variance of 1, 2, 3, 4 is 5/3; over four blocks 5/12.
    const { standardErrors } = adaptiveStop(blocks, 2, 1);
    expect((standardErrors as BlockSummary).mean).toBeCloseTo(Math.sqrt(5 / 12), 15);
  });

  it('stops for an output that never varies', () => {
    const constant = { mean: 7, standardUncertainty: 0, low: 7, high: 7 };
    expect(adaptiveStop([constant, constant], 0, 2)).toMatchObject({ enough: true, tolerance: 0 });
  });

  it('refuses no blocks and a divisor below 1', () => {
    expect(() => adaptiveStop([], 2, 1)).toThrow('at least 1 block');
    expect(() => adaptiveStop([steady], 2, 1, 0.5)).toThrow('divisor >= 1');
  });
});
