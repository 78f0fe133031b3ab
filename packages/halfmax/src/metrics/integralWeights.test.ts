import { describe, expect, it } from 'vitest';
import { integralWeights } from './integralWeights.js';

describe('integralWeights', () => {
  const wavelengthNm = Float64Array.from([0, 1, 2.5, 3, 5, 6]);
  const curve = { wavelengthNm, transmittance: wavelengthNm, standardUncertainty: new Float64Array(6) };
  const trust = new Float64Array(6).fill(1);
  const integral = (from: number, to: number, t = trust): number =>
    integralWeights(curve, t, from, to).reduce((sum, w, i) => sum + w * (2 * wavelengthNm[i]! + 1), 0);

  it('is exact for a straight line, between pixels too', () => {
    // integral of 2 x + 1: x^2 + x
    expect(integral(0, 6)).toBeCloseTo(42, 12);
    expect(integral(0.3, 4.1)).toBeCloseTo(4.1 ** 2 + 4.1 - 0.3 ** 2 - 0.3, 12);
    expect(integral(1.2, 1.4)).toBeCloseTo(1.4 ** 2 + 1.4 - 1.2 ** 2 - 1.2, 12);
  });

  it('steps over a pixel without trust', () => {
    const doubtful = Float64Array.from(trust);
    doubtful[2] = 0;
    expect(integral(0, 6, doubtful)).toBeCloseTo(42, 12);
    expect(integralWeights(curve, doubtful, 0, 6)[2]).toBe(0);
  });
});
