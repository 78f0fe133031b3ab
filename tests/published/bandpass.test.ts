import { describe, expect, it } from 'vitest';
import { lineShape } from '../../packages/halfmax/src/calibration/index.js';
import {
  applySpread,
  type BandData,
  bandReadings,
  fitBand,
  spreadMatrix,
} from '../../packages/halfmax/src/correction/index.js';

/** Full width of a Gaussian over its standard deviation. */
const WIDTH = 2 * Math.sqrt(2 * Math.LN2);
const gaussian = lineShape(0, 1, 0);
/** A triangle of standard deviation 1: it is as wide at half of its height as its half base, the root of 6. */
const triangle = { ...gaussian, value: (z: number) => Math.max(0, 1 - Math.abs(z) / Math.sqrt(6)) };

interface Band {
  readonly at: (x: number) => number;
  /** Integral from the centre to x, where the band has edges: what a grid cell holds of it is exact then. */
  readonly integral?: (x: number) => number;
}

const gaussBand = (fwhm: number): Band => ({ at: (x) => 2 ** -(((2 * x) / fwhm) ** 2) });
const boxBand = (width: number): Band => ({
  at: (x) => (Math.abs(x) < width / 2 ? 1 : 0),
  integral: (x) => Math.max(-width / 2, Math.min(width / 2, x)),
});
const cavitiesBand = (fwhm: number): Band => ({ at: (x) => 1 / (1 + ((2 * x) / fwhm) ** 6) });

/** What pixels see of a band about 0, by the weights of the package. */
function see(
  band: Band,
  places: Float64Array,
  lineSpread: number,
  shape: 'gaussian' | 'triangle',
): Float64Array {
  const sigmaNm = shape === 'gaussian' ? lineSpread / WIDTH : lineSpread / Math.sqrt(6);
  const spreads = Array.from(places, () => ({ sigmaNm, lampSlopePerNm: 0 }));
  const matrix = spreadMatrix(places, spreads, shape === 'gaussian' ? gaussian : triangle, 1);
  const half = (matrix.gridNm[1]! - matrix.gridNm[0]!) / 2;
  const { at, integral } = band;
  const curve = matrix.gridNm.map((x) =>
    integral === undefined ? at(x) : (integral(x + half) - integral(x - half)) / (2 * half),
  );
  const out = new Float64Array(places.length);
  applySpread(matrix, curve, out);
  return out;
}

const dense = Float64Array.from({ length: 4001 }, (_, i) => -10 + 0.005 * i);

/** Peak and full width at half of it, by straight lines between dense points. */
function numbersOf(seen: Float64Array): { peak: number; fwhm: number } {
  const peak = Math.max(...seen);
  const first = seen.findIndex((value) => value >= peak / 2);
  const last =
    seen.length -
    1 -
    seen
      .slice()
      .reverse()
      .findIndex((value) => value >= peak / 2);
  const cross = (inside: number, outside: number): number =>
    dense[inside]! +
    ((dense[outside]! - dense[inside]!) * (seen[inside]! - peak / 2)) / (seen[inside]! - seen[outside]!);
  return { peak, fwhm: cross(last, last + 1) - cross(first, first - 1) };
}

/**
 * The correction for a triangular bandpass as wide as the step of a scan.
 * Source: E. I. Stearns, R. E. Stearns, "An example of a method for correcting radiance data for bandpass error",
 * Color Res. Appl. 13, 257 (1988): P_i = -a P'_(i-1) + (1 + 2a) P'_i - a P'_(i+1), at the ends (1 + a) P'_1 - a P'_2,
 * a = 0.083. Every P' is as measured, also to the left.
 */
function stearns(measured: readonly number[], a = 0.083): number[] {
  return measured.map((value, i) => {
    const neighbours = [measured[i - 1], measured[i + 1]].filter((one) => one !== undefined);
    return (1 + neighbours.length * a) * value - a * neighbours.reduce((sum, one) => sum + one, 0);
  });
}

describe('the spread of the package against published corrections for bandpass', () => {
  // A Gaussian band of 6 at the places 0, 3 and 6, a triangle of 2, a step of 2.
  const band = gaussBand(6);
  const around = (x: number, reach: number): number[] =>
    Array.from(
      see(
        band,
        Float64Array.from({ length: 2 * reach + 1 }, (_, k) => x + 2 * (k - reach)),
        2,
        'triangle',
      ),
    );
  const table = [
    { x: 0, measured: 0.95165321, three: 0.99022957, five: 0.99658623 },
    { x: 3, measured: 0.50824404, three: 0.50512135, five: 0.50236866 },
    { x: 6, measured: 0.07707827, three: 0.06303296, five: 0.06184101 },
  ];

  // A triangle sampled in steps of an eighth of its standard deviation has a variance that is off by up to a sixth of
  // a step squared, 1/384 of its own: half the second derivative of the band times that is at most 1.3e-4.
  const GRID = 2e-4;

  it.each(table)('a triangle of 2 shows a Gaussian of 6 as it should at $x', ({ x, measured }) => {
    expect(Math.abs(around(x, 0)[0]! - measured)).toBeLessThan(GRID);
  });

  it.each(table)('is taken out by the three-point formula as far as that goes at $x', ({ x, three }) => {
    expect(Math.abs(stearns(around(x, 1), 1 / 12)[1]! - three)).toBeLessThan(2 * GRID);
  });

  it.each(table)('and by five points, S = M - h^2/12 M" + h^4/240 M"", at $x', ({ x, five }) => {
    // E. R. Woolliams et al., Metrologia 48, 164 (2011); CIE 214:2014; a triangle has these moments.
    const seen = around(x, 2);
    const weights = [0.011111, -0.127778, 1.233333, -0.127778, 0.011111];
    const corrected = weights.reduce((sum, weight, k) => sum + weight * seen[k]!, 0);
    expect(Math.abs(corrected - five)).toBeLessThan(2 * GRID);
    const truth = band.at(x);
    expect(Math.abs(corrected - truth)).toBeLessThan(Math.abs(seen[2]! - truth) / 2);
  });

  it('the three-point formula takes its neighbours as measured', () => {
    const measured = [
      9.37, 12.32, 12.46, 9.51, 5.92, 4.33, 4.29, 3.88, 4.51, 10.92, 27.5, 49.67, 69.59, 81.73, 88.19, 86.05,
    ];
    const printed = [
      9.12515, 12.55323, 12.71647, 9.56312, 5.754, 4.20135, 4.32071, 3.79368, 4.03026, 10.07589, 27.03603,
      49.85675, 70.23574, 82.20144, 88.9038, 85.87238,
    ];
    stearns(measured).forEach((value, i) => {
      expect(Math.abs(value - printed[i]!)).toBeLessThan(0.5e-5 + 1e-9);
    });
  });
});

// Convolution integrals of a band with a line spread, worked out to 9 digits outside this package.
describe('peak and width of a band through a line spread, from the convolution integral', () => {
  const table: readonly [string, Band, number, 'gaussian' | 'triangle', peak: number, fwhm: number][] = [
    ['Gaussian 3 through Gaussian 1.5', gaussBand(3), 1.5, 'gaussian', 0.894427191, 3.354101966],
    ['Gaussian 6 through Gaussian 0.7', gaussBand(6), 0.7, 'gaussian', 0.993263139, 6.040695324],
    ['rectangle 3 through triangle 2', boxBand(3), 2, 'triangle', 0.9375, 3.127016654],
    ['rectangle 3 through triangle 3', boxBand(3), 3, 'triangle', 0.75, 3.803847577],
    ['rectangle 3 through Gaussian 1', boxBand(3), 1, 'gaussian', 0.999587929, 3.000438636],
    ['rectangle 3 through Gaussian 1.5', boxBand(3), 1.5, 'gaussian', 0.981468322, 3.029588665],
    ['rectangle 3 through Gaussian 2', boxBand(3), 2, 'gaussian', 0.922623448, 3.164380053],
    ['rectangle 3 through Gaussian 3', boxBand(3), 3, 'gaussian', 0.760968109, 3.748112137],
    ['three cavities of 3 through Gaussian 1', cavitiesBand(3), 1, 'gaussian', 0.99369877, 3.06588627],
    ['three cavities of 3 through Gaussian 1.5', cavitiesBand(3), 1.5, 'gaussian', 0.96085552, 3.15659472],
    ['three cavities of 3 through Gaussian 2', cavitiesBand(3), 2, 'gaussian', 0.89928327, 3.33914567],
    ['three cavities of 6 through Gaussian 1.5', cavitiesBand(6), 1.5, 'gaussian', 0.99869618, 6.08438104],
  ];

  it.each(table)('%s', (_, band, lineSpread, shape, peak, fwhm) => {
    const found = numbersOf(see(band, dense, lineSpread, shape));
    // Grid of an eighth of a standard deviation: averages over a cell widen by its variance, step^2 / 12, 1/768 of
    // that of the spread.
    expect(Math.abs(found.peak - peak)).toBeLessThan(1e-3);
    expect(Math.abs(found.fwhm - fwhm)).toBeLessThan(2e-3);
  });

  it('keeps the area: that of three cavities of 3 is pi', () => {
    const wide = Float64Array.from({ length: 24001 }, (_, i) => -60 + 0.005 * i);
    const area = see(cavitiesBand(3), wide, 1.5, 'gaussian').reduce((sum, value) => sum + 0.005 * value, 0);
    // Beyond 60 lie 2 x 1.5^6 / (5 x 60^5): 6e-9.
    expect(Math.abs(area - Math.PI)).toBeLessThan(1e-6);
  });
});

describe('the width without the spread: not by a difference of squares', () => {
  const noise = 1e-3;
  function correctedWidth(band: Band, lineSpread: number): { seen: number; corrected: number } {
    const wavelengthNm = Float64Array.from({ length: 91 }, (_, i) => -9 + 0.2 * (i + 0.37));
    const spreads = Array.from(wavelengthNm, () => ({ sigmaNm: lineSpread / WIDTH, lampSlopePerNm: 0 }));
    const seen = numbersOf(see(band, dense, lineSpread, 'gaussian'));
    const data: BandData = {
      wavelengthNm,
      transmittance: see(band, wavelengthNm, lineSpread, 'gaussian'),
      standardUncertainty: new Float64Array(91).fill(noise),
      matrix: spreadMatrix(wavelengthNm, spreads, gaussian, 1),
      centreNm: 0,
      fwhmNm: seen.fwhm,
      peakTransmittance: seen.peak,
      lineSpreadNm: lineSpread,
    };
    const { shape, parameters } = fitBand(data);
    const { blueNm, redNm } = bandReadings(shape, parameters);
    return { seen: seen.fwhm, corrected: redNm - blueNm };
  }

  it.each([
    // Difference of squares: 3.0296^2 - 1.5^2 = 2.632^2, 3.1644^2 - 2^2 = 2.452^2, 3.3391^2 - 2^2 = 2.674^2.
    ['rectangle 3 through Gaussian 1.5', boxBand(3), 3, 1.5, 2.632],
    ['rectangle 3 through Gaussian 2', boxBand(3), 3, 2, 2.452],
    ['three cavities of 3 through Gaussian 2', cavitiesBand(3), 3, 2, 2.674],
    ['three cavities of 6 through Gaussian 1.5', cavitiesBand(6), 6, 1.5, 5.897],
  ])('%s', (_, band, fwhm, lineSpread, squares) => {
    const { seen, corrected } = correctedWidth(band, lineSpread);
    expect(Math.sqrt(seen ** 2 - lineSpread ** 2)).toBeCloseTo(squares, 2);
    // A tenth of what the difference of squares is off by.
    expect(Math.abs(corrected - fwhm)).toBeLessThan(0.1 * (fwhm - squares));
  });

  it('is right for a Gaussian, as the difference of squares is', () => {
    const { seen, corrected } = correctedWidth(gaussBand(3), 1.5);
    expect(Math.sqrt(seen ** 2 - 1.5 ** 2)).toBeCloseTo(3, 3);
    expect(Math.abs(corrected - 3)).toBeLessThan(0.02);
  });
});
