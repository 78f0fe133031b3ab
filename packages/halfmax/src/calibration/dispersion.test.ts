import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { compareInstrumentScale } from './compareInstrumentScale.js';
import { dispersionAt, pixelOf, wavelengthAt, wavelengthCovariance, wavelengthsOf } from './dispersion.js';
import type { Dispersion } from './types.js';

const PIXELS = 1001;

/** A lower triangular factor; the covariance is the factor times its transpose. */
const factor = [
  [0.02, 0, 0, 0],
  [0.004, 0.03, 0, 0],
  [-0.03, 0.01, 0.02, 0],
  [0.002, -0.03, 0.004, 0.02],
];

const covariance = factor.map((a) =>
  Float64Array.from(factor, (b) => a.reduce((sum, v, k) => sum + v * b[k]!, 0)),
);

const rising: Dispersion = Object.freeze({
  order: 3,
  coefficients: Float64Array.of(580, 200, -8, -0.6),
  covariance,
  pivotPixel: 500,
  pixelScale: 500,
});
const falling: Dispersion = Object.freeze({ ...rising, coefficients: Float64Array.of(580, -200, -8, 0.6) });

describe.each([
  ['rising', rising],
  ['falling', falling],
])('a %s scale', (_, scale) => {
  it('gives the wavelength of a pixel from its coefficients', () => {
    expect(wavelengthAt(scale, 500)).toBe(580);
    expect(wavelengthAt(scale, 1000)).toBeCloseTo(scale === rising ? 771.4 : 372.6, 10);
    expect(wavelengthAt(scale, 0)).toBeCloseTo(scale === rising ? 372.6 : 771.4, 10);
    expect(wavelengthsOf(scale, PIXELS)).toEqual(
      Float64Array.from({ length: PIXELS }, (__, i) => wavelengthAt(scale, i)),
    );
  });

  it('has the derivative as its dispersion, with its sign', () => {
    for (const pixel of [-0.5, 0, 250.3, 500, 999.7]) {
      const slope = (wavelengthAt(scale, pixel + 0.5) - wavelengthAt(scale, pixel - 0.5)) / 1;
      // A central difference over a pixel is off by the third derivative over 24: 0.6 * 6 / 500^3 / 24.
      expect(Math.abs(dispersionAt(scale, pixel) - slope)).toBeLessThan(1e-8);
      expect(Math.sign(slope)).toBe(scale === rising ? 1 : -1);
    }
  });

  it('finds the pixel of a wavelength', () => {
    for (const pixel of [-0.4, 0, 0.3, 333.33, 500, 777.7, 1000, 1000.4]) {
      expect(pixelOf(scale, wavelengthAt(scale, pixel), PIXELS)).toBeCloseTo(pixel, 9);
    }
  });

  it('has no pixel for a wavelength beyond the outer edges', () => {
    for (const pixel of [-0.6, 1000.6]) expect(pixelOf(scale, wavelengthAt(scale, pixel), PIXELS)).toBeNull();
    expect(pixelOf(scale, 10, PIXELS)).toBeNull();
    expect(pixelOf(scale, 5000, PIXELS)).toBeNull();
  });
});

describe('wavelengthCovariance', () => {
  it('is what drawn coefficients scatter by', () => {
    const random = randomStream(7);
    const pairs = [
      [500, 500],
      [0, 0],
      [100, 130],
      [200, 900],
    ] as const;
    const sums = pairs.map(() => 0);
    const draws = 40000;
    for (let n = 0; n < draws; n++) {
      const z = [0, 1, 2, 3].map(() => random.normal());
      const moved = rising.coefficients.map(
        (c, j) => c + factor[j]!.reduce((sum, v, k) => sum + v * z[k]!, 0),
      );
      const drawn = { ...rising, coefficients: moved };
      pairs.forEach(([a, b], i) => {
        sums[i]! +=
          (wavelengthAt(drawn, a) - wavelengthAt(rising, a)) *
          (wavelengthAt(drawn, b) - wavelengthAt(rising, b));
      });
    }
    pairs.forEach(([a, b], i) => {
      const size = Math.sqrt(wavelengthCovariance(rising, a, a) * wavelengthCovariance(rising, b, b));
      // 40000 draws: a variance scatters by 0.7 %.
      expect(Math.abs(sums[i]! / draws - wavelengthCovariance(rising, a, b)) / size).toBeLessThan(0.03);
    });
  });

  it('is symmetric, and the diagonal element of the constant at the pivot', () => {
    expect(wavelengthCovariance(rising, 500, 500)).toBeCloseTo(covariance[0]![0]!, 15);
    expect(wavelengthCovariance(rising, 120, 870)).toBeCloseTo(wavelengthCovariance(rising, 870, 120), 15);
  });

  it('lets the difference of two near wavelengths be far better known than either', () => {
    // What makes the width of a band nearly free of the scale's error: the two half points share the fit.
    const variance = (a: number, b: number): number =>
      wavelengthCovariance(rising, a, a) +
      wavelengthCovariance(rising, b, b) -
      2 * wavelengthCovariance(rising, a, b);
    expect(Math.sqrt(variance(700, 708))).toBeLessThan(
      0.1 * Math.sqrt(wavelengthCovariance(rising, 700, 700)),
    );
  });
});

describe('compareInstrumentScale', () => {
  it('gives own minus fitted at ends and middle, rms and the largest', () => {
    const own = wavelengthsOf(rising, PIXELS).map((nm, i) => nm + 0.3 - 0.001 * i);
    const report = compareInstrumentScale(own, rising);
    expect(report.startNm).toBeCloseTo(0.3, 9);
    expect(report.middleNm).toBeCloseTo(-0.2, 9);
    expect(report.endNm).toBeCloseTo(-0.7, 9);
    expect(report.largestNm).toBeCloseTo(-0.7, 9);
    // Mean -0.2, evenly spread over 1.0: rms^2 = 0.04 + 1 / 12, with the ends of 1001 steps counted whole.
    expect(report.rmsNm).toBeCloseTo(Math.sqrt(0.04 + (1001 ** 2 - 1) / 12e6), 9);
  });

  it('needs two pixels', () => {
    expect(() => compareInstrumentScale([500], rising)).toThrow(
      new RangeError('compareInstrumentScale requires at least 2 pixels, got 1'),
    );
  });
});
