import { describe, expect, it } from 'vitest';
import { isAbsent, quantity } from './quantity.js';
import { transmittanceAt, transmittanceWeights } from './transmittanceAt.js';
import type { Curve } from './types.js';

const wavelengthNm = Float64Array.from({ length: 201 }, (_, i) => 650 + 0.1 * i + 0.01 * Math.sin(i));
const cubic = (nm: number): number =>
  0.5 + 0.1 * (nm - 660) - 0.01 * (nm - 660) ** 2 + 0.002 * (nm - 660) ** 3;
const curve: Curve = {
  wavelengthNm,
  transmittance: wavelengthNm.map(cubic),
  standardUncertainty: new Float64Array(201).fill(0.01),
};

describe('transmittanceAt', () => {
  it('is exact on a cubic, at the ends of the scan too', () => {
    for (const nm of [650.0, 655.03, 656.28, 669.9]) {
      expect(transmittanceAt(curve, nm)).toMatchObject({ value: expect.closeTo(cubic(nm), 9) });
    }
  });

  it('has less noise in a wider window, and less than a pixel', () => {
    const narrow = transmittanceAt(curve, 656.28);
    const wide = transmittanceAt(curve, 656.28, { lineSpreadNm: 2 });
    if (isAbsent(narrow) || isAbsent(wide)) throw new Error('absent');
    expect(narrow.standardUncertainty).toBeLessThan(0.01);
    expect(wide.standardUncertainty).toBeLessThan(0.7 * narrow.standardUncertainty);
  });

  it('states the noise of its weights', () => {
    const weights = transmittanceWeights(curve, 660, { halfWidthNm: 0.5 });
    if (isAbsent(weights)) throw new Error(weights.absent);
    const sum = weights.value.reduce((total, w) => total + w, 0);
    const root = Math.sqrt(weights.value.reduce((total, w) => total + w * w, 0));
    expect(sum).toBeCloseTo(1, 12);
    const found = transmittanceAt(curve, 660, { halfWidthNm: 0.5 });
    if (isAbsent(found)) throw new Error(found.absent);
    expect(found.standardUncertainty).toBeCloseTo(0.01 * root, 14);
    expect(found.interval95).toEqual(quantity(found.value, found.standardUncertainty).interval95);
  });

  it('says why outside the scan and in a gap', () => {
    expect(transmittanceAt(curve, 649.9)).toEqual({ absent: 'outside the scan, 650.00 to 669.99 nm' });
    const kept = (array: Float64Array): Float64Array => array.filter((_, i) => i < 50 || i > 55);
    const holed: Curve = {
      wavelengthNm: kept(curve.wavelengthNm),
      transmittance: kept(curve.transmittance),
      standardUncertainty: kept(curve.standardUncertainty),
    };
    expect(transmittanceAt(holed, 655.2)).toMatchObject({
      absent: expect.stringContaining('no pixels from'),
    });
    expect(isAbsent(transmittanceAt(holed, 656.5))).toBe(false);
  });

  it('refuses a wavelength or window that is none', () => {
    expect(() => transmittanceAt(curve, Number.NaN)).toThrow('finite wavelength');
    expect(() => transmittanceAt(curve, 656, { halfWidthNm: 0 })).toThrow('window above 0');
  });
});
