import { describe, expect, it } from 'vitest';
import { combineExposures } from './combineExposures.js';
import type { CleanSpectrum } from './types.js';

/** A rate of 1, 2, ... 9 counts per ms at 100 ms full scale 500, the last pixels clipped. */
function spectrum(exposureMs: number, more: Partial<CleanSpectrum> = {}): CleanSpectrum {
  const rate = [1, 2, 3, 4, 5, 6, 7, 8, 9];
  const masked = Uint8Array.from(rate, (value) => (value * exposureMs > 550 ? 1 : 0));
  return {
    entry: 0,
    role: 'lamp',
    lamp: 'Ne',
    filter: null,
    takenAtMs: null,
    exposureMs,
    frames: 1,
    counts: Float64Array.from(rate, (value, i) => (masked[i] === 1 ? 0 : value * exposureMs)),
    noise: new Float64Array(9).fill(3),
    darkNoise: new Float64Array(9).fill(4),
    masked,
    wavelengthNm: null,
    ...more,
  };
}

describe('combineExposures', () => {
  it('takes the longest unclipped exposure, the shorter one beside a clipped pixel', () => {
    const joined = combineExposures([spectrum(10), spectrum(100, { entry: 1 })]);
    // clipped at 100 ms from pixel 5 on; pixel 4 stands beside it
    expect([...joined.exposureMs]).toEqual([100, 100, 100, 100, 10, 10, 10, 10, 10]);
    expect([...joined.countsPerMs]).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect([...joined.counts]).toEqual([100, 200, 300, 400, 50, 60, 70, 80, 90]);
    expect(joined.entries).toEqual([0, 1]);
    // 3 and 4 counts in quadrature
    expect(joined.standardUncertainty[0]).toBeCloseTo(5 / 100, 12);
    expect(joined.standardUncertainty[8]).toBeCloseTo(5 / 10, 12);
  });

  it('uses the pixel beside a clipped one where nothing shorter is there, and masks what is clipped throughout', () => {
    const joined = combineExposures([spectrum(100)]);
    expect([...joined.masked]).toEqual([0, 0, 0, 0, 0, 1, 1, 1, 1]);
    expect([...joined.exposureMs]).toEqual([100, 100, 100, 100, 100, 0, 0, 0, 0]);
  });

  it('averages the same exposure by frames; noise falls, the shared dark does not', () => {
    const other = spectrum(10, { frames: 3, counts: new Float64Array(9).fill(50), entry: 1 });
    const joined = combineExposures([spectrum(10), other]);
    expect(joined.countsPerMs[0]).toBeCloseTo((10 + 3 * 50) / 4 / 10, 12);
    // (1 x 3, 3 x 3) in quadrature over 4, and a dark of 4
    expect(joined.standardUncertainty[0]).toBeCloseTo(Math.hypot(Math.hypot(3, 9) / 4, 4) / 10, 12);
  });

  it('does not depend on the order', () => {
    const list = [spectrum(10), spectrum(100, { entry: 1 }), spectrum(30, { entry: 2 })];
    expect(combineExposures([...list].reverse()).countsPerMs).toEqual(combineExposures(list).countsPerMs);
  });

  it('refuses nothing, unequal lengths and other light', () => {
    expect(() => combineExposures([])).toThrow('combineExposures requires at least 1 spectrum, got 0');
    expect(() => combineExposures([spectrum(10), spectrum(10, { counts: new Float64Array(2) })])).toThrow(
      'combineExposures requires equal lengths, got 9 and 2',
    );
    expect(() => combineExposures([spectrum(10), spectrum(10, { lamp: 'Hg-Ar' })])).toThrow(
      'combineExposures requires spectra of the same light, got lamp Ne and lamp Hg-Ar',
    );
  });
});
