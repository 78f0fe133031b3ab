import { describe, expect, it } from 'vitest';
import { type BandCorrection, type BandShape, shapePrior } from '../correction/index.js';
import { randomStream } from '../numeric/index.js';
import { shapeFollower, shapeResponse } from './shapeResponse.js';

const shape: BandShape = { originNm: 500, ripples: 3, size: 11 };
const pixels = 23;
const stream = randomStream(4);
const some = (length: number): Float64Array => Float64Array.from({ length }, () => stream.normal());
const matrix = { gridNm: new Float64Array(0), from: new Int32Array(0), rows: [] };

/** A correction of random numbers: its response is to be followed, whatever it is. */
const fit = {
  shape,
  parameters: some(shape.size),
  covariance: Array.from({ length: shape.size }, () => some(shape.size)),
  response: Array.from({ length: shape.size }, () => some(pixels)),
  seen: some(pixels),
  misfit: 1,
  converged: true,
};
const wider = some(pixels);
const correction = {
  data: { wavelengthNm: some(pixels), transmittance: some(pixels) },
  fit,
  skewness: 0.1,
  spreadNoise: some(pixels).map(Math.abs),
  widthUncertainty: 0.02,
  skewnessUncertainty: 0.03,
  secondWay: { fwhmNm: 0, centreNm: 0, peak: 0 },
  matrixFor: () => matrix,
  seenThrough: () => wider,
} as unknown as BandCorrection;

describe('shapeFollower', () => {
  it('moves each parameter by the plain sums over pixels, line spread and prior', () => {
    const held = Array.from(shapePrior(shape).deviation.entries()).filter(
      ([, deviation]) => deviation < Infinity,
    );
    const x = some(2 + shape.size + held.length);
    const drawn = some(pixels + 5);
    const response = shapeResponse(correction);
    const parameters = new Float64Array(shape.size);
    shapeFollower(response)(parameters, x, { atSpread: 0, atPrior: 2 + shape.size, drawn, offset: 5 });
    for (let j = 0; j < shape.size; j++) {
      const sum = (value: (i: number) => number): number =>
        fit.response[j]!.reduce((all, weight, i) => all + weight * value(i), 0);
      // Steps of 0.01 in the width and 0.05 in the skewness of the line spread.
      const answer = sum((i) => fit.seen[i]! - wider[i]!);
      const prior = held.reduce(
        (all, [k, deviation], h) => all + (fit.covariance[j]![k]! / deviation ** 2) * x[2 + shape.size + h]!,
        0,
      );
      const moved = sum((i) => drawn[5 + i]! - correction.data.transmittance[i]!);
      const expected =
        fit.parameters[j]! + moved + (answer / 0.01) * x[0]! + (answer / 0.05) * x[1]! + x[2 + j]! + prior;
      // The same sums in another order; covariances over small deviations squared reach 1e5.
      expect(Math.abs(parameters[j]! - expected)).toBeLessThan(1e-12 * Math.max(1e5, Math.abs(expected)));
    }
  });

  it('carries independent errors of the pixels as the covariance of the sums that they make', () => {
    const { spreadCovariance } = shapeResponse(correction);
    const [first, second] = [fit.response[0]!, fit.response[1]!];
    let expected = 0;
    for (let i = 0; i < pixels; i++) expected += first[i]! * second[i]! * correction.spreadNoise[i]! ** 2;
    expect(spreadCovariance[0]![1]!).toBeCloseTo(expected, 12);
    expect(spreadCovariance[1]![0]!).toBe(spreadCovariance[0]![1]!);
  });
});
