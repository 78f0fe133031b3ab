import { describe, expect, it } from 'vitest';
import { lineShape } from '../calibration/index.js';
import { normalCdf } from '../numeric/index.js';
import { bandReadings } from './bandReadings.js';
import {
  HEIGHT,
  LEAST_TAIL,
  LOG_STEEPNESS,
  LOG_WIDTH,
  MOST_LOG_STEEPNESS,
  shapePrior,
  TAIL,
} from './bandShape.js';
import { type BandData, type BandFit, fitBand } from './fitBand.js';
import { spreadMatrix } from './spreadMatrix.js';

const centre = 656.3;
const noise = 0.002;
/** Full width of a Gaussian over its standard deviation. */
const WIDTH = 2 * Math.sqrt(2 * Math.LN2);

/** What pixels see of a band, in closed form, with a Gaussian spread. */
function dataOf(seen: (x: number) => number, fwhmNm: number, lineSpreadNm: number): BandData {
  const reach = Math.max(1.4 * fwhmNm, fwhmNm / 2 + 2.2 * lineSpreadNm);
  const count = Math.round((2 * reach) / 0.17);
  const wavelengthNm = Float64Array.from({ length: count }, (_, i) => centre - reach + 0.17 * (i + 0.3));
  const spreads = Array.from(wavelengthNm, () => ({ sigmaNm: lineSpreadNm / WIDTH, lampSlopePerNm: 0 }));
  const transmittance = wavelengthNm.map((nm) => seen(nm - centre));
  const peak = Math.max(...transmittance);
  const above = wavelengthNm.filter((_, i) => transmittance[i]! > peak / 2);
  return {
    wavelengthNm,
    transmittance,
    standardUncertainty: new Float64Array(count).fill(noise),
    matrix: spreadMatrix(wavelengthNm, spreads, lineShape(0, 1, 0), 1),
    centreNm: (above[0]! + above[above.length - 1]!) / 2,
    fwhmNm: above[above.length - 1]! - above[0]!,
    peakTransmittance: peak,
    lineSpreadNm,
  };
}

const gauss = (height: number, width: number, spread: number) => (x: number) => {
  const seen = Math.hypot(width, spread);
  return ((height * width) / seen) * 2 ** -(((2 * x) / seen) ** 2);
};
const box = (height: number, width: number, spread: number) => (x: number) =>
  height * (normalCdf(((x + width / 2) * WIDTH) / spread) - normalCdf(((x - width / 2) * WIDTH) / spread));
/** A band of three cavities, seen by a sum in steps of a hundredth of the spread. */
const cavities = (height: number, width: number, spread: number) => (x: number) => {
  let sum = 0;
  let weights = 0;
  for (let z = -5; z <= 5; z += 0.01) {
    const weight = Math.exp(-0.5 * z * z);
    sum += weight / (1 + (Math.abs(x + (z * spread) / WIDTH) / (width / 2)) ** 6);
    weights += weight;
  }
  return (height * sum) / weights;
};

const bands: readonly [string, BandData, number][] = [
  ['a Gaussian of 3 nm through 1.5 nm', dataOf(gauss(0.9, 3, 1.5), 3, 1.5), 3],
  ['a Gaussian of 6 nm through 0.7 nm', dataOf(gauss(0.9, 6, 0.7), 6, 0.7), 6],
  ['three cavities of 3 nm through 1.5 nm', dataOf(cavities(0.9, 3, 1.5), 3, 1.5), 3],
  ['three cavities of 6 nm through 1 nm', dataOf(cavities(0.85, 6, 1), 6, 1), 6],
  ['a box of 3 nm through 1.5 nm', dataOf(box(0.9, 3, 1.5), 3, 1.5), 3],
  ['a box of 7 nm through 1 nm', dataOf(box(0.9, 7, 1), 7, 1), 7],
];
const fits = new Map<BandData, BandFit>();
const fitOf = (data: BandData): BandFit => {
  const fit = fits.get(data) ?? fitBand(data);
  fits.set(data, fit);
  return fit;
};

/** Width, centre and peak, each with its slopes along the parameters. */
function numbersOf(fit: BandFit): { name: string; value: number; slopes: Float64Array }[] {
  const read = (parameters: Float64Array): number[] => {
    const { blueNm, redNm, peakTransmittance } = bandReadings(fit.shape, parameters);
    return [redNm - blueNm, (redNm + blueNm) / 2, peakTransmittance];
  };
  const step = 1e-5;
  const slopes = Array.from(fit.parameters, (_, k) => {
    const [up, down] = [1, -1].map((sign) => {
      const moved = Float64Array.from(fit.parameters);
      moved[k]! += sign * step;
      return read(moved);
    });
    return up!.map((value, n) => (value - down![n]!) / (2 * step));
  });
  return read(fit.parameters).map((value, n) => ({
    name: ['width', 'centre', 'peak'][n]!,
    value,
    slopes: Float64Array.from(slopes, (row) => row[n]!),
  }));
}

function quadratic(matrix: readonly Float64Array[], vector: Float64Array): number {
  return matrix.reduce(
    (sum, row, j) => sum + vector[j]! * row.reduce((inner, value, k) => inner + value * vector[k]!, 0),
    0,
  );
}

describe('fitBand', () => {
  it.each(bands)('takes the spread out of %s', (_, data, width) => {
    const fit = fitOf(data);
    expect(fit.misfit).toBeLessThan(0.5);
    const [fwhm, middle] = numbersOf(fit);
    // No noise was added: what is off is the shape and its prior, which the covariance holds.
    expect(Math.abs(fwhm!.value - width)).toBeLessThan(Math.sqrt(quadratic(fit.covariance, fwhm!.slopes)));
    expect(Math.abs(middle!.value - centre)).toBeLessThan(
      Math.sqrt(quadratic(fit.covariance, middle!.slopes)),
    );
  });

  it('ends at a bound for a Gaussian and for a box that is hardly blurred', () => {
    const round = fitBand({ ...dataOf(gauss(0.9, 8, 0.5), 8, 0.5), standardUncertainty: bright(8, 0.5) });
    expect(round.parameters[TAIL]).toBe(LEAST_TAIL);
    const steep = fitBand({ ...dataOf(box(0.9, 9, 0.4), 9, 0.4), standardUncertainty: bright(9, 0.4) });
    expect(steep.parameters[LOG_STEEPNESS]).toBe(MOST_LOG_STEEPNESS);
  });
});

/** A hundredth of the noise: the data outweigh the prior and drive the shape to its bounds. */
function bright(fwhmNm: number, lineSpreadNm: number): Float64Array {
  return dataOf(gauss(0.9, fwhmNm, lineSpreadNm), fwhmNm, lineSpreadNm).standardUncertainty.map(
    (u) => u / 100,
  );
}

describe('the response of the fit to noise', () => {
  const atBounds: readonly [string, BandData, number][] = [
    [
      'a Gaussian at the least tail',
      { ...dataOf(gauss(0.9, 8, 0.5), 8, 0.5), standardUncertainty: bright(8, 0.5) },
      8,
    ],
    [
      'a box at the most steepness',
      { ...dataOf(box(0.9, 9, 0.4), 9, 0.4), standardUncertainty: bright(9, 0.4) },
      9,
    ],
  ];

  // C = (J'WJ + P)^-1 and R = C J'W, so R W^-1 R' = C - C P C: noise and prior together make up the covariance.
  it.each([...bands, ...atBounds])('never exceeds the covariance: %s', (_, data) => {
    const fit = fitOf(data);
    const { deviation } = shapePrior(fit.shape);
    for (const { name, slopes } of numbersOf(fit)) {
      const stated = quadratic(fit.covariance, slopes);
      let fromNoise = 0;
      data.standardUncertainty.forEach((u, i) => {
        const answer = fit.response.reduce((sum, row, k) => sum + slopes[k]! * row[i]!, 0);
        fromNoise += (answer * u) ** 2;
      });
      const fromPrior = deviation.reduce((sum, own, k) => {
        const carried = fit.covariance[k]!.reduce((inner, value, j) => inner + value * slopes[j]!, 0);
        return sum + (carried / own) ** 2;
      }, 0);
      expect(fromNoise, name).toBeGreaterThan(0);
      expect(Math.sqrt(fromNoise), name).toBeLessThanOrEqual(Math.sqrt(stated) * (1 + 1e-9));
      // Rounding: the covariance is inverted from a triangle whose condition is some 1e5.
      expect(Math.abs((fromNoise + fromPrior) / stated - 1), name).toBeLessThan(1e-6);
    }
  });

  it('is how the parameters move when one pixel moves', () => {
    const [, data] = bands[2]!;
    const fit = fitOf(data);
    const step = 1e-5;
    for (const pixel of [8, 17, 24, 30]) {
      const moved = fitBand({
        ...data,
        transmittance: data.transmittance.map((t, i) => (i === pixel ? t + step : t)),
      });
      for (const k of [HEIGHT, LOG_WIDTH]) {
        const u = Math.sqrt(fit.covariance[k]![k]!);
        const expected = fit.response[k]![pixel]! * step;
        // A step is 1/200 of the noise of one pixel: what is left out is the square of it.
        expect(Math.abs(moved.parameters[k]! - fit.parameters[k]! - expected) / u).toBeLessThan(1e-4);
      }
    }
  });
});
