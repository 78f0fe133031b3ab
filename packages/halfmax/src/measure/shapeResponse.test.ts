import { describe, expect, it } from 'vitest';
import { type BandCorrection, type BandShape, type LikelyFit, shapePrior } from '../correction/index.js';
import { randomStream } from '../numeric/index.js';
import { shapeFollower, shapeResponse } from './shapeResponse.js';

const shape: BandShape = { originNm: 500, ripples: 3, size: 11 };
const pixels = 23;
const stream = randomStream(4);
const some = (length: number): Float64Array => Float64Array.from({ length }, () => stream.normal());
const matrix = { gridNm: new Float64Array(0), from: new Int32Array(0), rows: [] };

/** A fit of random numbers: its response is to be followed, whatever it is. */
const fit: LikelyFit = {
  shape,
  prior: shapePrior(shape),
  parameters: some(shape.size),
  covariance: Array.from({ length: shape.size }, () => some(shape.size)),
  response: Array.from({ length: shape.size }, () => some(pixels)),
  seen: some(pixels),
  misfit: 1,
  converged: true,
  cost: 1,
  share: 0.4,
};
const wider = some(pixels);
const correction = {
  data: { wavelengthNm: some(pixels), transmittance: some(pixels) },
  fits: [fit],
  skewness: 0.1,
  spreadNoise: some(pixels).map(Math.abs),
  matrixFor: () => matrix,
  seenThrough: () => wider,
} as unknown as BandCorrection;
const held = Array.from(fit.prior.deviation.entries()).filter(([, deviation]) => deviation < Infinity);
const columns = 2 + shape.size + held.length;

describe('shapeFollower', () => {
  it('moves each parameter by the plain sums over pixels, line spread and prior', () => {
    const x = some(columns);
    // Standard normal numbers for the shape of the line spread are tested by their covariance below.
    x.fill(0, 2, 2 + shape.size);
    const drawn = some(pixels + 5);
    const response = shapeResponse(correction, fit);
    const parameters = new Float64Array(shape.size);
    shapeFollower(response)(parameters, x, { atSpread: 0, drawn, offset: 5 });
    for (let j = 0; j < shape.size; j++) {
      const sum = (value: (i: number) => number): number =>
        fit.response[j]!.reduce((all, weight, i) => all + weight * value(i), 0);
      // Steps of 0.01 in the width and 0.05 in the skewness of the line spread.
      const answer = sum((i) => fit.seen[i]! - wider[i]!);
      const prior = held.reduce(
        (all, [k, deviation], h) => all + (fit.covariance[j]![k]! / deviation) * x[2 + shape.size + h]!,
        0,
      );
      const moved = sum((i) => drawn[5 + i]! - correction.data.transmittance[i]!);
      const expected = fit.parameters[j]! + moved + (answer / 0.01) * x[0]! + (answer / 0.05) * x[1]! + prior;
      // The same sums in another order; covariances over small deviations reach 1e3.
      expect(Math.abs(parameters[j]! - expected)).toBeLessThan(1e-12 * Math.max(1e4, Math.abs(expected)));
    }
  });

  it('carries independent errors of the pixels as the covariance of the sums that they make', () => {
    const { byFew } = shapeResponse(correction, fit);
    const byShape = (j: number): Float64Array =>
      byFew.subarray(j * columns + 2, j * columns + 2 + shape.size);
    for (const [j, k] of [
      [0, 0],
      [0, 1],
      [7, 3],
      [10, 10],
    ] as const) {
      let expected = 0;
      for (let i = 0; i < pixels; i++)
        expected += fit.response[j]![i]! * fit.response[k]![i]! * correction.spreadNoise[i]! ** 2;
      const found = byShape(j).reduce((sum, value, h) => sum + value * byShape(k)[h]!, 0);
      expect(found).toBeCloseTo(expected, 10);
    }
  });
});
