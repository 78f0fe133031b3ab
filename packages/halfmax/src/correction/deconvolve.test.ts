import { describe, expect, it } from 'vitest';
import { lineShape } from '../calibration/index.js';
import { randomStream } from '../numeric/index.js';
import { deconvolve } from './deconvolve.js';
import type { BandData } from './fitBand.js';
import { spreadMatrix } from './spreadMatrix.js';

const centre = 500.7;
const WIDTH = 2 * Math.sqrt(2 * Math.LN2);

/** A Gaussian band seen through a Gaussian spread in closed form, with or without noise. */
function dataOf(fwhmNm: number, lineSpreadNm: number, noise: number, seed: number | null): BandData {
  const stream = randomStream(seed ?? 0);
  const wavelengthNm = Float64Array.from({ length: 81 }, (_, i) => centre + 0.2 * (i - 40.3));
  const seen = Math.hypot(fwhmNm, lineSpreadNm);
  const spreads = Array.from(wavelengthNm, () => ({ sigmaNm: lineSpreadNm / WIDTH, lampSlopePerNm: 0 }));
  const peak = (0.9 * fwhmNm) / seen;
  return {
    wavelengthNm,
    transmittance: wavelengthNm.map(
      (nm) =>
        peak * 2 ** -(((2 * (nm - centre)) / seen) ** 2) + (seed === null ? 0 : noise * stream.normal()),
    ),
    standardUncertainty: new Float64Array(81).fill(noise),
    matrix: spreadMatrix(wavelengthNm, spreads, lineShape(0, 1, 0), 1),
    centreNm: centre,
    fwhmNm: seen,
    peakTransmittance: peak,
    lineSpreadNm,
  };
}

describe('deconvolve', () => {
  it.each([
    [4, 1],
    [3, 1.5],
    [5, 2],
  ])(
    'brings a Gaussian of %d nm seen through %d nm most of the way back, and stops at the noise',
    (width, spread) => {
      const data = dataOf(width, spread, 1e-3, null);
      const { readings, misfit, rounds } = deconvolve(data);
      expect(misfit).toBeLessThanOrEqual(1);
      expect(rounds).toBeGreaterThan(0);
      const found = readings.redNm - readings.blueNm;
      // Stopped where the residuals are as small as the noise, it is a little too wide; never too narrow, and nine
      // tenths of what the spread had added are gone.
      expect(found).toBeGreaterThan(width - 0.001 * width);
      expect(found - width).toBeLessThan(0.1 * (data.fwhmNm - width));
      expect(0.9 - readings.peakTransmittance).toBeLessThan(0.1 * (0.9 - data.peakTransmittance));
      expect(Math.abs((readings.redNm + readings.blueNm) / 2 - centre)).toBeLessThan(1e-3);
    },
  );

  it('comes nearer the less noise there is', () => {
    const errors = [1e-2, 3e-3, 1e-3, 3e-4].map((noise) => {
      const { readings } = deconvolve(dataOf(3, 1.5, noise, null));
      return Math.abs(readings.redNm - readings.blueNm - 3);
    });
    expect(errors).toEqual([...errors].sort((a, b) => b - a));
  });

  it('leaves alone what is already explained', () => {
    const data = dataOf(5, 0.3, 1, null);
    const { rounds, readings } = deconvolve(data);
    expect(rounds).toBe(0);
    // Nothing was taken out: the curve as it was, by straight lines between pixels of 0.2 nm.
    expect(Math.abs(readings.redNm - readings.blueNm - data.fwhmNm)).toBeLessThan(0.01);
  });

  it('finds the width within what the noise allows', () => {
    const errors = Array.from({ length: 20 }, (_, seed) => {
      const { readings } = deconvolve(dataOf(4, 1, 2e-3, seed + 1));
      return readings.redNm - readings.blueNm - 4;
    });
    const mean = errors.reduce((sum, error) => sum + error, 0) / 20;
    // The spread had added 0.123 nm.
    expect(Math.abs(mean)).toBeLessThan(0.03);
  });
});
