import { describe, expect, it } from 'vitest';
import { gaussLegendre, integrate } from './integrate.js';

describe('gaussLegendre', () => {
  it('has the nodes and weights of Abramowitz and Stegun, table 25.4', () => {
    const { nodes, weights } = gaussLegendre(5);
    expect(nodes[0]).toBeCloseTo(0.906179845938664, 15);
    expect(nodes[1]).toBeCloseTo(0.538469310105683, 15);
    expect(nodes[2]).toBeCloseTo(0, 15);
    expect(weights[0]).toBeCloseTo(0.236926885056189, 15);
    expect(weights[1]).toBeCloseTo(0.478628670499366, 15);
    expect(weights[2]).toBeCloseTo(0.568888888888889, 15);
  });

  it('is exact for polynomials up to degree 2n - 1 and not beyond', () => {
    for (const n of [1, 2, 5, 16]) {
      const rule = gaussLegendre(n);
      for (let degree = 0; degree < 2 * n; degree++) {
        // On 0 to 1 the integral of x^k is 1 / (k + 1); rounding of n terms.
        expect(integrate((x) => x ** degree, [0, 1], rule)).toBeCloseTo(1 / (degree + 1), 14);
      }
    }
    expect(Math.abs(integrate((x) => x ** 4, [0, 1], gaussLegendre(2)) - 0.2)).toBeGreaterThan(1e-3);
  });

  it('adds up panels of any width', () => {
    expect(integrate(Math.exp, [0, 0.1, 0.1, 2, 3], gaussLegendre(16))).toBeCloseTo(Math.exp(3) - 1, 12);
    expect(integrate(Math.exp, [1], gaussLegendre(16))).toBe(0);
  });

  it('refuses a count that is not whole', () => {
    expect(() => gaussLegendre(0)).toThrow(RangeError);
    expect(() => gaussLegendre(2.5)).toThrow(RangeError);
  });
});
