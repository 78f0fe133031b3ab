import { describe, expect, it } from 'vitest';
import { leastSquares } from './leastSquares.js';
import { ringColumns, wingModel, wingTerms } from './wings.js';

const radius = Float64Array.from({ length: 120 }, (_, k) => 8.5 + k);
const ones = new Float64Array(120).fill(1);

/** Largest part of a profile that background and wings leave. */
function left(profile: Float64Array, terms: number): number {
  const columns = ringColumns(radius, wingModel(8, 128, terms), []);
  const { residuals } = leastSquares(columns, profile, ones);
  return Math.max(...residuals.map(Math.abs)) / Math.max(...profile.map(Math.abs));
}

describe('wingModel', () => {
  it.each([[-1.75], [-2.25], [-3.25], [-4.25]])('holds the power %f exactly', (power) => {
    expect(
      left(
        radius.map((r) => 5 * r ** power + 3),
        6,
      ),
    ).toBeLessThan(1e-10);
  });

  it('comes near a Moffat profile with an aureole, nearer with more terms', () => {
    const profile = radius.map((r) => (1 + (r / 3) ** 2) ** -3 + 2e-4 * (1 + (r / 18) ** 2) ** -1.25);
    expect(left(profile, 6)).toBeLessThan(1e-3);
    expect(left(profile, 8)).toBeLessThan(left(profile, 6));
  });

  it('does not hold the edge of a disk', () => {
    expect(
      left(
        radius.map((r) => (r < 60 ? 1 : 0)),
        6,
      ),
    ).toBeGreaterThan(0.2);
  });

  it('takes a reference times a line in the logarithm', () => {
    const reference = {
      radius,
      counts: radius.map((r) => 1e6 * r ** -3),
      variance: new Float64Array(120).fill(1e-6),
    };
    const out = new Float64Array(2);
    wingModel(8, 128, 0, reference).at(20.2, out, 0);
    // A power is met exactly between the rings; the line is 0 halfway between 8 and 128 in the logarithm, 32.
    expect(out[0]! / (1e6 * 20.2 ** -3)).toBeCloseTo(1, 10);
    expect(out[1]! / out[0]!).toBeCloseTo((2 * Math.log(20.2 / 8)) / Math.log(16) - 1, 10);
  });
});

describe('wingTerms', () => {
  it('are more for a wider range, and no more than the rings carry', () => {
    expect(wingTerms(8, 24, 100)).toEqual([5, 7, 9]);
    expect(wingTerms(8, 128, 100)).toEqual([6, 8, 10]);
    expect(wingTerms(8, 1000, 200)).toEqual([8, 10, 12]);
    expect(wingTerms(8, 24, 20)).toEqual([5]);
  });
});
