import { describe, expect, it } from 'vitest';
import { fitHeldPolynomial, ORDER_LIMITS } from './heldPolynomial.js';

const powers = (t: number, order: number): number[] => Array.from({ length: order + 1 }, (_, k) => t ** k);

describe('fitHeldPolynomial', () => {
  it('gives the published straight line of the thermometer calibration', () => {
    // JCGM 100:2008 (GUM), H.3, table H.6: b = y1 + y2 (t - 20 C); the first order is not held.
    const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
    const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
    const design = t.map((value) => powers(value - 20, 1));
    const fit = fitHeldPolynomial(design, 1, b, new Float64Array(11).fill(1), 1);
    const variance = fit.weightedSumOfSquares / fit.degreesOfFreedom;
    const covariance = fit.covariance.map((row) => row.map((value) => value * variance));
    expect(fit.coefficients[0]).toBeCloseTo(-0.1712, 4);
    expect(fit.coefficients[1]).toBeCloseTo(0.00218, 5);
    expect(Math.sqrt(covariance[0]![0]!)).toBeCloseTo(0.0029, 4);
    expect(Math.sqrt(covariance[1]![1]!)).toBeCloseTo(0.00067, 5);
    expect(covariance[0]![1]! / Math.sqrt(covariance[0]![0]! * covariance[1]![1]!)).toBeCloseTo(-0.93, 3);
    expect(Math.sqrt(variance)).toBeCloseTo(0.0035, 4);
    // The prediction at 30 C and its uncertainty, H.3.4.
    const at30 = fit.coefficients[0]! + 10 * fit.coefficients[1]!;
    const u30 = Math.sqrt(covariance[0]![0]! + 20 * covariance[0]![1]! + 100 * covariance[1]![1]!);
    expect(at30).toBeCloseTo(-0.1494, 4);
    expect(u30).toBeCloseTo(0.0041, 4);
    expect(fit.degreesOfFreedom).toBeCloseTo(9, 9);
  });

  it('does not hold what many lines say', () => {
    const truth = [600, 200, -8, 0.9];
    const t = Array.from({ length: 30 }, (_, k) => -0.95 + (1.9 * k) / 29);
    const y = t.map((value) => truth.reduce((sum, c, k) => sum + c * value ** k, 0));
    const fit = fitHeldPolynomial(
      t.map((value) => powers(value, 3)),
      3,
      y,
      new Float64Array(30).fill(1 / 0.01 ** 2),
      200,
    );
    // Held with 4 nm against a variance of 0.01^2 / 30 or so: the share of the pull is below 1e-5.
    truth.forEach((c, k) => {
      expect(Math.abs(fit.coefficients[k]! - c)).toBeLessThan(1e-5);
    });
    expect(fit.degreesOfFreedom).toBeCloseTo(26, 4);
  });

  it('stands in for lines that are missing: a cubic through two lines is nearly straight', () => {
    const fit = fitHeldPolynomial(
      [powers(-0.5, 3), powers(0.5, 3)],
      3,
      [500, 700],
      new Float64Array(2).fill(1e4),
      200,
    );
    expect(fit.coefficients[0]).toBeCloseTo(600, 6);
    expect(fit.coefficients[1]).toBeCloseTo(200, 3);
    // Nothing is known of the higher orders but what a grating can do.
    for (const order of [2, 3]) {
      expect(Math.sqrt(fit.covariance[order]![order]!)).toBeCloseTo(ORDER_LIMITS[order]! * 200, 2);
    }
    expect(fit.degreesOfFreedom).toBeLessThan(0.01);
  });

  it('is the weighted mean of the lines and the hold, term by term', () => {
    // One unknown left: t = 1 and -1 fix orders 0 and 1, the bend is seen once, at t = 0, through order 2.
    const u = 3;
    const halfSpan = 50;
    const hold = ORDER_LIMITS[2]! * halfSpan;
    const weights = Float64Array.of(1e12, 1e12, 1 / u ** 2);
    const fit = fitHeldPolynomial(
      [powers(-1, 2), powers(1, 2), powers(0, 2)],
      2,
      [450, 550, 507],
      weights,
      halfSpan,
    );
    // c0 + c2 = 500 and c0 = 507 +- 3 give c2 = -7 +- 3; the hold gives 0 +- 10.
    expect(fit.coefficients[2]).toBeCloseTo(-7 / u ** 2 / (1 / u ** 2 + 1 / hold ** 2), 6);
    expect(fit.covariance[2]![2]).toBeCloseTo(1 / (1 / u ** 2 + 1 / hold ** 2), 6);
  });
});

describe('ORDER_LIMITS', () => {
  it('is not exceeded by the grating equation within the stated angles', () => {
    // wavelength = d (sin alpha + sin beta), beta = beta0 + atan(x tan(field)): derivatives by finite differences of the
    // polynomial through Chebyshev points, for fields to 0.2 rad and diffraction to 25 degrees.
    const nodes = Array.from({ length: 9 }, (_, k) => Math.cos((Math.PI * (k + 0.5)) / 9));
    for (const beta of [-25, -10, 0, 10, 25]) {
      for (const field of [0.05, 0.1, 0.2]) {
        const y = nodes.map((x) => Math.sin((beta * Math.PI) / 180 + Math.atan(x * Math.tan(field))));
        const c = interpolate(nodes, y);
        for (let order = 2; order <= 4; order++) {
          expect(Math.abs(c[order]! / c[1]!)).toBeLessThan(ORDER_LIMITS[order]! * 1.05);
        }
      }
    }
  });
});

/** Power coefficients of the polynomial through points, by Gauss elimination. */
function interpolate(x: readonly number[], y: readonly number[]): number[] {
  const n = x.length;
  const rows = x.map((value, i) => [...powers(value, n - 1), y[i]!]);
  for (let j = 0; j < n; j++) {
    const pivot = rows
      .slice(j)
      .reduce((best, row, k) => (Math.abs(row[j]!) > Math.abs(rows[best]![j]!) ? j + k : best), j);
    [rows[j], rows[pivot]] = [rows[pivot]!, rows[j]!];
    for (let i = 0; i < n; i++) {
      if (i === j) continue;
      const factor = rows[i]![j]! / rows[j]![j]!;
      rows[i] = rows[i]!.map((value, k) => value - factor * rows[j]![k]!);
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}
