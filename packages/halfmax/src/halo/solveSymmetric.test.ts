import { describe, expect, it } from 'vitest';
import { solveSymmetric } from './solveSymmetric.js';

describe('solveSymmetric', () => {
  it('solves a system by hand', () => {
    // 4 x + 2 y = 2, 2 x + 10 y = 19: x = -1/2, y = 2.
    const solution = solveSymmetric(Float64Array.of(4, 0, 2, 10), Float64Array.of(2, 19), 2, 0)!;
    expect(solution[0]).toBeCloseTo(-0.5, 9);
    expect(solution[1]).toBeCloseTo(2, 9);
  });

  it('leaves a parameter without any weight where it is', () => {
    const solution = solveSymmetric(Float64Array.of(4, 0, 0, 0), Float64Array.of(2, 0), 2, 0)!;
    expect([...solution].map((value) => Math.round(1e9 * value) / 1e9)).toEqual([0.5, 0]);
  });

  it('shortens steps by damping', () => {
    // On the unit diagonal: x = 2 / 4 / (1 + 1).
    expect(solveSymmetric(Float64Array.of(4), Float64Array.of(2), 1, 1)![0]).toBeCloseTo(0.25, 9);
  });
});
