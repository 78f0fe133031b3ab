import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { bandReader } from './bandReader.js';
import {
  type BandShape,
  bandCurve,
  CENTRE,
  FIRST_RIPPLE,
  HEIGHT,
  LOG_WIDTH,
  shapePrior,
} from './bandShape.js';

const shape: BandShape = { originNm: 656.3, ripples: 8, size: FIRST_RIPPLE + 8 };

/** Parameters drawn from the prior of the shape, the ripples no larger than `most` of it. */
function bands(count: number, most: number): Float64Array[] {
  const stream = randomStream(9);
  const { mean, deviation } = shapePrior(shape);
  return Array.from({ length: count }, () => {
    const parameters = mean.map((m, k) => {
      const own = deviation[k]!;
      return own < Infinity ? m + (k >= FIRST_RIPPLE ? most : 1) * own * stream.normal() : m;
    });
    parameters[HEIGHT] = 0.9;
    parameters[CENTRE] = 0.3 * stream.normal();
    parameters[LOG_WIDTH] = Math.log(3 + stream.uniform());
    return parameters;
  });
}

/** Outermost crossing of a level by a walk in small steps from outside and bisection. */
function walk(at: (nm: number) => number, level: number, fromNm: number, stepNm: number): number {
  let outside = fromNm;
  while (at(outside + stepNm) < level) outside += stepNm;
  let [low, high] = [outside, outside + stepNm];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (at(middle) < level) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

describe('bandReader', () => {
  it('has the values of bandCurve', () => {
    const reader = bandReader(shape);
    for (const parameters of bands(100, 1)) {
      reader.take(parameters);
      const curve = bandCurve(shape, parameters);
      for (let nm = 646; nm < 667; nm += 0.07) {
        // Rounding of powers and exponentials.
        expect(Math.abs(reader.value(nm) - curve(nm))).toBeLessThan(1e-13);
      }
    }
  });

  it('reads peak and crossings as a search in small steps does', () => {
    const reader = bandReader(shape);
    const out = new Float64Array(4);
    let hidden = 0;
    for (const parameters of bands(300, 1)) {
      reader.take(parameters);
      reader.read(out);
      const [peak, peakNm, blueNm, redNm] = out as unknown as [number, number, number, number];
      const curve = bandCurve(shape, parameters);
      expect(Math.abs(curve(peakNm) - peak)).toBeLessThan(1e-13);
      let highest = 0;
      for (let nm = 653; nm < 660; nm += 0.002) highest = Math.max(highest, curve(nm));
      if (peak < highest - 1e-9) hidden++;
      expect(Math.abs(walk(curve, peak / 2, 630, 0.004) - blueNm)).toBeLessThan(1e-8);
      expect(Math.abs(walk(curve, peak / 2, 683, -0.004) - redNm)).toBeLessThan(1e-8);
    }
    expect(hidden).toBe(0);
  });

  it('has no crossings where half of the peak lies below the ground', () => {
    const parameters = bands(1, 0)[0]!;
    parameters[7] = 2;
    const reader = bandReader(shape);
    const out = new Float64Array(4);
    reader.take(parameters);
    reader.read(out);
    expect([out[2], out[3]]).toEqual([Number.NaN, Number.NaN]);
  });
});
