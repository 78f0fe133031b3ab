import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluatePolynomial } from './evaluatePolynomial.js';
import { fitLinear } from './fitLinear.js';
import { localPolynomial } from './localPolynomial.js';

const x = Float64Array.from({ length: 40 }, (_, i) => 650 + 0.31 * i + 0.05 * Math.sin(i));

describe('localPolynomial', () => {
  it('returns value and derivatives of a polynomial of its degree', () => {
    const coefficients = [0.4, -0.3, 0.02, 0.005];
    const y = x.map((v) => evaluatePolynomial(coefficients, v - 655));
    const at = 656.28;
    const t = at - 655;
    const fit = localPolynomial(x, y, at, 2, 3);
    expect(fit.value).toBeCloseTo(evaluatePolynomial(coefficients, t), 12);
    expect(fit.slope).toBeCloseTo(-0.3 + 2 * 0.02 * t + 3 * 0.005 * t * t, 11);
    expect(fit.curvature).toBeCloseTo(2 * 0.02 + 6 * 0.005 * t, 10);
  });

  it('is the weighted fit by least squares of the same points', () => {
    const y = x.map((v) => Math.sin(v) + 2);
    const weights = x.map((_, i) => 1 + (i % 3));
    const [at, half] = [655.1, 1.7];
    const near = Array.from(x.keys()).filter((i) => Math.abs(x[i]! - at) < half);
    const fit = fitLinear(
      near.map((i) => [1, x[i]! - at, (x[i]! - at) ** 2]),
      near.map((i) => y[i]!),
      near.map((i) => weights[i]! * (1 - (Math.abs(x[i]! - at) / half) ** 3) ** 3),
    );
    const local = localPolynomial(x, y, at, half, 2, weights);
    expect(local.value).toBeCloseTo(fit.coefficients[0]!, 12);
    expect(local.slope).toBeCloseTo(fit.coefficients[1]!, 11);
    expect(local.curvature).toBeCloseTo(2 * fit.coefficients[2]!, 10);
  });

  it('gives weights that make the value and sum to 1, at the ends of x too', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 650, max: 662, noNaN: true }),
        fc.integer({ min: 0, max: 3 }),
        (at, degree) => {
          const y = x.map((v) => Math.cos(3 * v));
          const { value, valueWeights } = localPolynomial(x, y, at, 2.5, degree);
          const sum = valueWeights.weights.reduce((total, w, k) => total + w * y[valueWeights.from + k]!, 0);
          expect(Math.abs(sum - value)).toBeLessThan(1e-10);
          expect(valueWeights.weights.reduce((a, b) => a + b)).toBeCloseTo(1, 10);
        },
      ),
    );
  });

  it('refuses too few points in reach, a width of 0, lengths that differ and negative weights', () => {
    expect(() => localPolynomial(x, x, 655, 0.2, 3)).toThrow('at least 4 points of weight in reach');
    expect(() => localPolynomial(x, x, 700, 2, 0)).toThrow('got 0');
    expect(() => localPolynomial(x, x, 655, 0, 1)).toThrow('a width above 0');
    expect(() => localPolynomial(x, [1], 655, 2, 1)).toThrow('one length');
    expect(() =>
      localPolynomial(
        x,
        x,
        655,
        2,
        1,
        x.map(() => -1),
      ),
    ).toThrow('got -1');
    expect(() => localPolynomial(x, x, 655, 2, 1, [1])).toThrow('requires 40 weights');
  });
});
