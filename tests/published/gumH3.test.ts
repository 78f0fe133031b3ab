import { describe, expect, it } from 'vitest';
import { fitPolynomial } from '../../packages/halfmax/src/numeric/index.js';

// JCGM 100:2008 (GUM), H.3: calibration of a thermometer, table H.6. Correction b against temperature t, degrees C.
const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
const fit = fitPolynomial(t, b, 1, { pivot: 20, scale: 1 });
const s = fit.residualStandardDeviation;
const covariance = fit.covariance.map((row) => row.map((value) => value * s * s));

describe('GUM H.3, straight line b = y1 + y2 (t - 20)', () => {
  const [y1, y2] = fit.coefficients;
  const u1 = Math.sqrt(covariance[0]![0]!);
  const u2 = Math.sqrt(covariance[1]![1]!);

  it('has the published results, to their last digit', () => {
    expect(y1!.toFixed(4)).toBe('-0.1712');
    expect(u1.toFixed(4)).toBe('0.0029');
    expect(y2!.toFixed(5)).toBe('0.00218');
    expect(u2.toFixed(5)).toBe('0.00067');
    expect((covariance[0]![1]! / (u1 * u2)).toFixed(3)).toBe('-0.930');
    expect(s.toFixed(4)).toBe('0.0035');
    expect(fit.degreesOfFreedom).toBe(9);
  });

  it('has the full digits of the same data in double precision (numpy)', () => {
    expect(y1).toBeCloseTo(-0.17120379013135, 13);
    expect(u1).toBeCloseTo(0.002877597835, 12);
    expect(y2).toBeCloseTo(0.0021826977398872, 14);
    expect(u2).toBeCloseTo(0.0006679387732, 12);
    expect(covariance[0]![1]! / (u1 * u2)).toBeCloseTo(-0.9304296031, 10);
    expect(s).toBeCloseTo(0.003497563964, 12);
    expect(fit.weightedSumOfSquares).toBeCloseTo(0.000110096583109, 15);
  });

  it('predicts the correction at 30 degrees with its uncertainty (H.3.4)', () => {
    const value = y1! + 10 * y2!;
    const u = Math.sqrt(covariance[0]![0]! + 20 * covariance[0]![1]! + 100 * covariance[1]![1]!);
    expect(value.toFixed(4)).toBe('-0.1494');
    expect(u.toFixed(4)).toBe('0.0041');
    expect(value).toBeCloseTo(-0.1493768127, 10);
    expect(u).toBeCloseTo(0.0041385958, 10);
  });

  it('has no correlation about the mean temperature (H.3.5)', () => {
    const mean = t.reduce((sum, value) => sum + value, 0) / t.length;
    const about = fitPolynomial(t, b, 1, { pivot: mean, scale: 1 });
    const [first, second] = about.covariance;
    expect(Math.abs(first![1]! / Math.sqrt(first![0]! * second![1]!))).toBeLessThan(1e-13);
    expect(about.coefficients[0]).toBeCloseTo(-0.1624545455, 10);
    expect(s * Math.sqrt(first![0]!)).toBeCloseTo(0.0010545552, 10);
  });
});
