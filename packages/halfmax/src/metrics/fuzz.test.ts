import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeBand } from './describeBand.js';
import { findBands } from './findBands.js';
import { outOfBand } from './outOfBand.js';
import { transmittanceAt } from './transmittanceAt.js';
import type { Curve } from './types.js';

/** Any curve at all: uneven steps with gaps, humps, hot pixels, noise known, unknown or enormous. */
const anyCurve = fc
  .array(
    fc.record({
      step: fc.oneof(fc.double({ min: 0.1, max: 0.6, noNaN: true }), fc.constantFrom(0.2, 8)),
      hump: fc.oneof(fc.constantFrom(0, 0, 0, 1), fc.double({ min: -0.2, max: 1.5, noNaN: true })),
      u: fc.constantFrom(0, 0.001, 0.003, 0.2),
    }),
    { minLength: 5, maxLength: 120 },
  )
  .chain((pixels) => fc.tuple(fc.constant(pixels), fc.integer({ min: 0, max: 6 })))
  .map(([pixels, smoothing]): Curve => {
    let nm = 600;
    const wavelengthNm = Float64Array.from(pixels, (pixel) => {
      nm += pixel.step;
      return nm;
    });
    let transmittance = Float64Array.from(pixels, (pixel) => pixel.hump);
    for (let pass = 0; pass < smoothing; pass++) {
      transmittance = transmittance.map((t, i, all) => (t + (all[i - 1] ?? t) + (all[i + 1] ?? t)) / 3);
    }
    return {
      wavelengthNm,
      transmittance,
      standardUncertainty: Float64Array.from(pixels, (pixel) => pixel.u),
    };
  });

/** Every number in a result, with its path. */
function numbers(value: unknown, path = ''): [string, number][] {
  if (typeof value === 'number') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbers(inner, `${path}.${key}`));
}

describe('the metrics of any curve', () => {
  it('are finite numbers or reasons, never NaN, and nothing is thrown', () => {
    fc.assert(
      fc.property(anyCurve, (curve) => {
        const bands = findBands(curve);
        const results = [
          bands,
          bands.map((band) => describeBand(curve, band)),
          bands.map((band) => describeBand(curve, band, { lineSpreadNm: 1.2, floor: 0.01 })),
          outOfBand(curve, bands),
          transmittanceAt(curve, curve.wavelengthNm[2]! + 0.05),
        ];
        for (const [path, number] of numbers(results)) expect(Number.isFinite(number), path).toBe(true);
      }),
      { numRuns: 1500, seed: 12 },
    );
  });
});
