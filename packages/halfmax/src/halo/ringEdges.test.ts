import { describe, expect, it } from 'vitest';
import { ringEdges } from './ringEdges.js';

describe('ringEdges', () => {
  it('are a pixel apart up to a hundred, then a hundredth of the radius', () => {
    const edges = ringEdges(400);
    expect(Array.from(edges.subarray(0, 101))).toEqual(Array.from({ length: 101 }, (_, k) => k));
    // From 100 on: 100 x 1.01^k.
    for (let k = 0; 101 + k < edges.length; k++) expect(edges[101 + k]).toBeCloseTo(100 * 1.01 ** (k + 1), 8);
    expect(edges[edges.length - 1]).toBeLessThanOrEqual(400);
    expect(edges[edges.length - 1]! * 1.01).toBeGreaterThan(400);
  });

  it.each([[1], [Number.NaN], [1e7]])('refuses a radius of %f', (outer) => {
    expect(() => ringEdges(outer)).toThrow('radius of at least 2');
  });

  it.each([[0], [0.3]])('refuses a share of %f', (share) => {
    expect(() => ringEdges(10, share)).toThrow('share up to 0.2');
  });
});
