import { describe, expect, it } from 'vitest';
import { lineShape } from '../calibration/index.js';
import { applySpread, type SpreadMatrix, spreadMatrix } from './spreadMatrix.js';

const gaussian = lineShape(0, 1, 0);
const wavelengthNm = Float64Array.from({ length: 241 }, (_, i) => 644 + 0.1 * i);
const middle = 656;

function matrixOf(sigmaNm: number, lampSlopePerNm = 0): SpreadMatrix {
  const spreads = Array.from(wavelengthNm, () => ({ sigmaNm, lampSlopePerNm }));
  return spreadMatrix(wavelengthNm, spreads, gaussian, 1);
}

function seenOf(matrix: SpreadMatrix, value: (nm: number) => number): Float64Array {
  const out = new Float64Array(matrix.rows.length);
  applySpread(matrix, matrix.gridNm.map(value), out);
  return out;
}

/** Area, centroid and variance of a curve on the even pixels. */
function moments(curve: Float64Array): [area: number, centroid: number, variance: number] {
  const sum = (weight: (nm: number) => number): number =>
    curve.reduce((all, value, i) => all + 0.1 * value * weight(wavelengthNm[i]!), 0);
  const area = sum(() => 1);
  const centroid = sum((nm) => nm) / area;
  return [area, centroid, sum((nm) => (nm - centroid) ** 2) / area];
}

const bell = (sigma: number) => (nm: number) => Math.exp(-0.5 * ((nm - middle) / sigma) ** 2);

describe('spreadMatrix', () => {
  it('has rows that sum to 1 and none below 0', () => {
    const { rows, from, gridNm } = matrixOf(0.7, 0.05);
    for (const [i, row] of rows.entries()) {
      expect(row.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 12);
      expect(row.every((weight) => weight >= 0)).toBe(true);
      expect(from[i]! + row.length).toBeLessThanOrEqual(gridNm.length);
    }
  });

  it('makes a Gaussian band through a Gaussian spread a Gaussian: the variances add', () => {
    const seen = seenOf(matrixOf(0.7), bell(1.2));
    const sigma = Math.hypot(0.7, 1.2);
    const expected = wavelengthNm.map((nm) => (1.2 / sigma) * bell(sigma)(nm));
    // The spread ends at 4.5 standard deviations: 7e-6 of its weight and 1.4e-4 of its variance lie beyond.
    seen.forEach((value, i) => {
      expect(Math.abs(value - expected[i]!)).toBeLessThan(5e-5);
    });
    expect(moments(seen)[2] / sigma ** 2 - 1).toBeGreaterThan(-1.4e-4);
    expect(moments(seen)[2] / sigma ** 2 - 1).toBeLessThan(1e-9);
  });

  it('makes a box through a box a trapezium', () => {
    // A box has a standard deviation of its width over the root of 12.
    const width = 1.6;
    const box = { ...gaussian, value: (z: number) => (Math.abs(z) < Math.sqrt(3) ? 1 : 0) };
    const spreads = Array.from(wavelengthNm, () => ({ sigmaNm: width / Math.sqrt(12), lampSlopePerNm: 0 }));
    const matrix = spreadMatrix(wavelengthNm, spreads, box, 1);
    const seen = seenOf(matrix, (nm) => (Math.abs(nm - middle) < 2.5 ? 1 : 0));
    const step = matrix.gridNm[1]! - matrix.gridNm[0]!;
    seen.forEach((value, i) => {
      const expected = Math.min(
        1,
        Math.max(0, (2.5 + width / 2 - Math.abs(wavelengthNm[i]! - middle)) / width),
      );
      // Box and band end between grid points: a point more or less each.
      expect(Math.abs(value - expected)).toBeLessThan((2 * step) / width);
    });
  });

  it('keeps area and centroid', () => {
    const band = (nm: number): number => bell(1)(nm) + 0.4 * bell(0.6)(nm - 1.7);
    const [area, centroid] = moments(wavelengthNm.map(band));
    for (const sigma of [0.3, 0.8, 1.2]) {
      const seen = moments(seenOf(matrixOf(sigma), band));
      expect(Math.abs(seen[0] / area - 1)).toBeLessThan(1e-6);
      // A row may reach one grid point further to one side: 4.5 sigma x sigma / 8 x density there, 9e-6 sigma.
      expect(Math.abs(seen[1] - centroid)).toBeLessThan(9e-6 * sigma);
    }
  });

  it('gives a straight line back, and a parabola with the variance of the spread added', () => {
    const matrix = matrixOf(0.5);
    const line = seenOf(matrix, (nm) => 0.3 + 0.02 * (nm - middle));
    const parabola = seenOf(matrix, (nm) => (nm - middle) ** 2);
    wavelengthNm.forEach((nm, i) => {
      expect(line[i]).toBeCloseTo(0.3 + 0.02 * (nm - middle), 5);
      // The part beyond 4.5 standard deviations is missing: 1.4e-4 of the variance; ends of the grid cut into rows.
      if (Math.abs(nm - middle) < 11)
        expect(Math.abs(parabola[i]! - (nm - middle) ** 2 - 0.25)).toBeLessThan(2e-4);
    });
  });

  it('sees a line brighter on the side where the lamp is: by slope times variance', () => {
    const seen = seenOf(matrixOf(0.5, 0.04), (nm) => nm - middle);
    // Weights (1 + s x) g(x): the mean of x is s sigma^2.
    expect(seen[120]! - (wavelengthNm[120]! - middle)).toBeCloseTo(0.04 * 0.25, 5);
  });

  it('turns a skewed spread over with the direction', () => {
    const skewed = lineShape(0.3, 1, 0.3);
    const spreads = Array.from(wavelengthNm, () => ({ sigmaNm: 0.6, lampSlopePerNm: 0 }));
    const [one, other] = ([1, -1] as const).map((direction) =>
      seenOf(spreadMatrix(wavelengthNm, spreads, skewed, direction), (nm) => (nm - middle) ** 3),
    );
    // The third moment of what is seen at the middle is that of the spread, or its opposite.
    expect(one![120]).toBeCloseTo(-other![120]!, 3);
    expect(Math.abs(one![120]!)).toBeGreaterThan(0.5 * 0.3 * 0.6 ** 3);
  });
});
