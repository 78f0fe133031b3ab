import { describe, expect, it } from 'vitest';
import { lineShape } from '../calibration/index.js';
import { randomStream } from '../numeric/index.js';
import { type BandShape, bandCurve, FIRST_RIPPLE } from './bandShape.js';
import type { BandData } from './fitBand.js';
import { fitTops } from './fitTops.js';
import { applySpread, spreadMatrix } from './spreadMatrix.js';

/** A flat band of 5 nm, 0.9 high, seen through a Gaussian line spread, with noise and ripples of the fifth cosine. */
function seenBand(lineSpreadNm: number, ripple: number, seed: number): BandData {
  const wavelengthNm = Float64Array.from({ length: 150 }, (_, i) => 649 + 0.1 * i);
  const sigmaNm = lineSpreadNm / Math.sqrt(8 * Math.LN2);
  const spreads = Array.from(wavelengthNm, () => ({ sigmaNm, lampSlopePerNm: 0 }));
  const matrix = spreadMatrix(wavelengthNm, spreads, lineShape(0, 1, 0), 1);
  const shape: BandShape = { originNm: 656.3, ripples: 8, size: FIRST_RIPPLE + 8 };
  const parameters = new Float64Array(shape.size);
  parameters.set([0.9, 0, Math.log(5), 0, Math.log(3), 0, 1, 0]);
  parameters[FIRST_RIPPLE + 4] = ripple;
  const transmittance = new Float64Array(wavelengthNm.length);
  applySpread(matrix, matrix.gridNm.map(bandCurve(shape, parameters)), transmittance);
  const stream = randomStream(seed);
  for (let i = 0; i < transmittance.length; i++) transmittance[i]! += 0.001 * stream.normal();
  return {
    wavelengthNm,
    transmittance,
    standardUncertainty: new Float64Array(wavelengthNm.length).fill(0.001),
    matrix,
    centreNm: 656.3,
    fwhmNm: 5,
    peakTransmittance: 0.9,
    lineSpreadNm,
  };
}

const unevenShare = (data: BandData): number => {
  const fits = fitTops(data);
  expect(fits.reduce((sum, fit) => sum + fit.share, 0)).toBeCloseTo(1, 12);
  const uneven = fits.filter((fit) => fit.prior.deviation[FIRST_RIPPLE + 4]! > 0.005);
  return uneven.reduce((sum, fit) => sum + fit.share, 0);
};

describe('fitTops', () => {
  it('holds a top for uneven where ripples are seen', () => {
    expect(unevenShare(seenBand(0.7, 0.05, 1))).toBeGreaterThan(0.9);
  });

  it('holds a top for even where none are seen that could be', () => {
    expect(unevenShare(seenBand(0.7, 0, 2))).toBeLessThan(0.1);
  });

  it('leaves the kind of top open where the line spread hides it', () => {
    const hidden = fitTops(seenBand(2.4, 0, 3)).map((fit) => fit.share);
    expect(hidden.length).toBeGreaterThan(1);
    expect(Math.max(...hidden)).toBeLessThan(0.9);
  });
});
