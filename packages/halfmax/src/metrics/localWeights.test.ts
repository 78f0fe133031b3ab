import { describe, expect, it } from 'vitest';
import { localWeights } from './localWeights.js';

const x = Float64Array.from([0, 0.9, 2.1, 3, 3.8, 5.2, 6, 7.1, 8]);
const trust = new Float64Array(9).fill(1);

function read(at: number, degree: number, f: (x: number) => number, weights = trust): [number, number] {
  const found = localWeights(x, weights, at, 2.5, degree)!;
  let [value, slope] = [0, 0];
  found.value.forEach((w, i) => {
    value += w * f(x[found.from + i]!);
    slope += found.slope[i]! * f(x[found.from + i]!);
  });
  return [value, slope];
}

describe('localWeights', () => {
  it.each([0.2, 2.1, 4.4, 7.9])('reproduces a polynomial of its own degree, value and slope, at %d', (at) => {
    const cubic = (t: number): number => 1 - 2 * t + 0.3 * t ** 2 - 0.02 * t ** 3;
    const [value, slope] = read(at, 3, cubic);
    // rounding of a fit through at most six points, condition below 1e4
    expect(Math.abs(value - cubic(at))).toBeLessThan(1e-11);
    expect(Math.abs(slope - (-2 + 0.6 * at - 0.06 * at ** 2))).toBeLessThan(1e-10);
  });

  it('gives a pixel without trust no weight', () => {
    const doubtful = Float64Array.from(trust);
    doubtful[4] = 0;
    const [value] = read(4, 2, (t) => (t === 3.8 ? 1e6 : t), doubtful);
    expect(value).toBeCloseTo(4, 6);
  });

  it('has nothing to say on too few pixels', () => {
    expect(localWeights(x.subarray(0, 3), trust, 1, 2, 3)).toBeNull();
  });
});
