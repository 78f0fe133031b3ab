import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLinear } from './fitLinear.js';
import { fitNonlinear } from './fitNonlinear.js';
import { randomStream } from './randomStream.js';

const n = 15;
/** A line of five parameters: height, centre, sigma, ground, slope. */
function line(p: Float64Array, out: Float64Array): void {
  for (let i = 0; i < n; i++) {
    const d = (i - p[1]!) / p[2]!;
    out[i] = p[0]! * Math.exp(-0.5 * d * d) + p[3]! + p[4]! * (i - 7);
  }
}
function lineDerivatives(p: Float64Array, rows: Float64Array[]): void {
  for (let i = 0; i < n; i++) {
    const d = (i - p[1]!) / p[2]!;
    const e = Math.exp(-0.5 * d * d);
    rows[i]!.set([e, (p[0]! * e * d) / p[2]!, (p[0]! * e * d * d) / p[2]!, 1, i - 7]);
  }
}
const truth = Float64Array.of(1000, 7.3, 2, 50, 1);
const start = [900, 7, 2.5, 0, 0];
function noisy(seed: number, sigma: number): Float64Array {
  const values = new Float64Array(n);
  line(truth, values);
  const stream = randomStream(seed);
  return values.map((value) => value + sigma * stream.normal());
}

describe('fitNonlinear', () => {
  it('returns the parameters that were put in, exact data and all', () => {
    const fit = fitNonlinear(line, noisy(1, 0), start);
    expect(fit.converged).toBe(true);
    truth.forEach((value, a) => void expect(fit.parameters[a]).toBeCloseTo(value, 7));
  });

  it('agrees with the linear fit where the model is linear', () => {
    const x = [0, 1, 2, 4, 7];
    const y = [1, 3, 4, 9, 16];
    const weights = [1, 2, 0.5, 3, 1];
    const linear = fitLinear(
      x.map((v) => [1, v]),
      y,
      weights,
    );
    const fit = fitNonlinear((p, out) => out.set(x.map((v) => p[0]! + p[1]! * v)), y, [0, 0], {
      weights,
    });
    expect(fit.converged).toBe(true);
    for (let a = 0; a < 2; a++) {
      expect(fit.parameters[a]).toBeCloseTo(linear.coefficients[a]!, 9);
      for (let b = 0; b < 2; b++) expect(fit.covariance[a]![b]).toBeCloseTo(linear.covariance[a]![b]!, 8);
    }
    expect(fit.weightedSumOfSquares).toBeCloseTo(linear.weightedSumOfSquares, 10);
  });

  it('gives the same with derivatives by formula', () => {
    const y = noisy(2, 10);
    const differences = fitNonlinear(line, y, start);
    const formula = fitNonlinear(line, y, start, { jacobian: lineDerivatives });
    for (let a = 0; a < 5; a++) {
      const uncertainty = formula.residualStandardDeviation * Math.sqrt(formula.covariance[a]![a]!);
      expect(Math.abs(formula.parameters[a]! - differences.parameters[a]!)).toBeLessThan(1e-6 * uncertainty);
      expect(formula.covariance[a]![a]! / differences.covariance[a]![a]!).toBeCloseTo(1, 6);
    }
  });

  it('states uncertainties that the scatter of repeated fits bears out', () => {
    const [fits, sigma] = [400, 10];
    const weights = new Float64Array(n).fill(1 / sigma ** 2);
    const squares = new Float64Array(5);
    for (let k = 0; k < fits; k++) {
      const fit = fitNonlinear(line, noisy(1000 + k, sigma), start, { weights });
      expect(fit.converged).toBe(true);
      for (let a = 0; a < 5; a++)
        squares[a]! += (fit.parameters[a]! - truth[a]!) ** 2 / fit.covariance[a]![a]! / fits;
    }
    // The mean of 400 squares of normal variables: 1 with a standard deviation of sqrt(2/400) = 0.07; five of them.
    for (const square of squares) expect(Math.abs(square - 1)).toBeLessThan(0.28);
  });

  it('moves with the data', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 100, noNaN: true }), (factor) => {
        const y = noisy(3, 10);
        const fit = fitNonlinear(line, y, start);
        const scaled = fitNonlinear(
          line,
          y.map((value) => value * factor),
          [900 * factor, 7, 2.5, 0, 0],
        );
        expect(scaled.parameters[0]! / factor / fit.parameters[0]!).toBeCloseTo(1, 7);
        expect(scaled.parameters[1]! / fit.parameters[1]!).toBeCloseTo(1, 7);
        expect(scaled.parameters[2]! / fit.parameters[2]!).toBeCloseTo(1, 7);
      }),
      { numRuns: 20 },
    );
  });

  it('stays within bounds, on them where the data pull beyond', () => {
    const bounds = { lower: [0, 0, 0.1, 60, -10], upper: [1e4, 14, 5, 1e3, 10] };
    const seen: number[] = [];
    const fit = fitNonlinear(
      (p, out) => {
        seen.push(p[3]!);
        line(p, out);
      },
      noisy(4, 0),
      [900, 7, 2.5, 100, 0],
      bounds,
    );
    expect(fit.converged).toBe(true);
    expect(fit.parameters[3]).toBe(60);
    expect(Math.min(...seen)).toBe(60);
    // With the ground held at 60 the rest is an ordinary fit of four parameters.
    const held = fitNonlinear(
      (p, out) => line(Float64Array.of(p[0]!, p[1]!, p[2]!, 60, p[3]!), out),
      noisy(4, 0),
      [900, 7, 2.5, 0],
    );
    expect(fit.parameters[2]).toBeCloseTo(held.parameters[2]!, 5);
    expect(fit.weightedSumOfSquares / held.weightedSumOfSquares).toBeCloseTo(1, 9);
  });

  it('says when it did not converge', () => {
    expect(fitNonlinear(line, noisy(5, 10), start, { maxIterations: 1 }).converged).toBe(false);
  });

  it('says that nothing is known of parameters that do the same', () => {
    const fit = fitNonlinear((p, out) => out.fill(p[0]! + p[1]!), [1, 2, 3], [1, 1]);
    expect(fit.converged).toBe(false);
    expect(Array.from(fit.covariance, (row) => Array.from(row))).toEqual([
      [Infinity, 0],
      [0, Infinity],
    ]);
  });

  it('steps back from places where the model has no value', () => {
    const x = [1, 2, 3, 4, 5];
    const model = (p: Float64Array, out: Float64Array): void =>
      out.set(x.map((v) => Math.log(p[0]! * v) + p[1]! * v));
    const fit = fitNonlinear(
      model,
      x.map((v) => Math.log(0.2 * v) + 0.3 * v),
      [5, -3],
    );
    expect(fit.converged).toBe(true);
    expect(fit.parameters[0]).toBeCloseTo(0.2, 7);
  });

  it('does not alter its arguments', () => {
    const y = noisy(6, 10);
    const copy = y.slice();
    fitNonlinear(line, y, Object.freeze([...start]), { weights: Object.freeze(Array(n).fill(1)) });
    expect(y).toEqual(copy);
  });

  const flat = (p: Float64Array, out: Float64Array): void => void out.fill(p[0]!);
  it.each([
    ['too few values', () => fitNonlinear(flat, [], [1]), 'got 0 for 1'],
    ['no parameters', () => fitNonlinear(flat, [1], []), 'got 1 for 0'],
    ['a start out of bounds', () => fitNonlinear(flat, [1, 2], [5], { upper: [4] }), 'at index 0'],
    ['bounds that meet', () => fitNonlinear(flat, [1, 2], [5], { upper: [5], lower: [5] }), 'at index 0'],
    ['bounds too many', () => fitNonlinear(flat, [1, 2], [5], { upper: [9, 9] }), 'requires 1 bounds'],
    ['a negative weight', () => fitNonlinear(flat, [1, 2], [5], { weights: [1, -1] }), 'at index 1'],
    [
      'a model not finite at the start',
      () => fitNonlinear((p, out) => void out.fill(Math.log(p[0]!)), [1], [-1]),
      'finite',
    ],
    ['values that are not finite', () => fitNonlinear(flat, [1, Number.NaN], [1]), 'finite'],
  ])('refuses %s', (_, run, message) => {
    expect(run).toThrow(RangeError);
    expect(run).toThrow(message);
  });
});
