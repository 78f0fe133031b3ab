import { describe, expect, it } from 'vitest';
import { curveInUse } from './curveInUse.js';

describe('curveInUse', () => {
  const curve = {
    wavelengthNm: Float64Array.of(1, 2, 3, 4, 5),
    transmittance: Float64Array.of(0.1, 0.2, 0.3, 0.4, 0.5),
    standardUncertainty: new Float64Array(5).fill(0.01),
  };

  it('puts corrected bands in the places of the measured ones, and hands their trials on', () => {
    const values = [Float64Array.of(0.8, 0.9)];
    const band = {
      from: 2,
      values,
      wavelengthNm: Float64Array.of(3, 4),
      transmittance: Float64Array.of(0.85, 0.95),
      standardUncertainty: Float64Array.of(0.02, 0.03),
    };
    const used = curveInUse(curve, [null, band]);
    expect(Array.from(used.transmittance)).toEqual([0.1, 0.2, 0.85, 0.95, 0.5]);
    expect(Array.from(used.standardUncertainty)).toEqual([0.01, 0.01, 0.02, 0.03, 0.01]);
    expect(used.trials).toEqual([{ from: 2, values }]);
    expect(curve.transmittance[2]).toBe(0.3);
  });

  it('is the measured curve where no band is corrected', () => {
    expect(curveInUse(curve, [null])).toEqual({ ...curve, trials: [] });
  });
});
