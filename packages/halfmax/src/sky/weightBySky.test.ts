import { describe, expect, it } from 'vitest';
import { detectedSky } from './detectedSky.js';
import { skyGrid } from './skyGrid.js';
import { skyShare } from './skyShare.js';
import { skyWeights } from './skyWeights.js';
import type { Sky } from './types.js';
import { weightBySky } from './weightBySky.js';

const flat = (height: number): Sky => ({
  wavelengthNm: skyGrid,
  photons: new Float64Array(skyGrid.length).fill(height),
  lines: [],
});
const curveOf = (
  nodes: readonly number[],
  values: readonly number[],
  noise = 0,
): Parameters<typeof weightBySky>[0] => ({
  wavelengthNm: Float64Array.from(nodes),
  transmittance: Float64Array.from(values),
  standardUncertainty: new Float64Array(nodes.length).fill(noise),
});

describe('weightBySky', () => {
  it('a flat sky: height times the area of the curve', () => {
    const trapezoid = curveOf([650, 654.3, 655.1, 658.7, 659.9, 670], [0, 0, 0.9, 0.9, 0, 0]);
    expect(weightBySky(trapezoid, flat(0.2)).photons).toBeCloseTo(0.2 * 0.9 * (3.6 + 0.4 + 0.6), 12);
  });

  it('two slopes: the integral of their product, whatever the points between', () => {
    const sky: Sky = { wavelengthNm: skyGrid, photons: skyGrid.map((at) => 0.001 * at), lines: [] };
    const slope = curveOf([500.13, 533.77, 577.01], [0.1, 0.1 + 0.01 * 33.64, 0.1 + 0.01 * 76.88]);
    // T = 0.1 + 0.01 (x - 500.13), S = 0.001 x
    const at = (x: number): number => 0.001 * ((0.1 - 5.0013) * (x ** 2 / 2) + 0.01 * (x ** 3 / 3));
    expect(weightBySky(slope, sky).photons).toBeCloseTo(at(577.01) - at(500.13), 9);
  });

  it('a line counts by the transmittance at its place, and not outside the range', () => {
    const sky: Sky = {
      ...flat(0),
      lines: [
        { wavelengthNm: 557.73, photons: 5 },
        { wavelengthNm: 700, photons: 9 },
      ],
    };
    const curve = curveOf([550, 560], [0, 1]);
    expect(weightBySky(curve, sky).photons).toBeCloseTo(5 * 0.773, 12);
    expect(weightBySky(curve, sky, { toNm: 557 }).photons).toBe(0);
  });

  it('a range cuts pixels where it falls between them', () => {
    const curve = curveOf([500, 600], [1, 1]);
    expect(weightBySky(curve, flat(2), { fromNm: 510.3, toNm: 577.77 }).photons).toBeCloseTo(2 * 67.47, 10);
  });

  it('noise: the root of the sum of squares of the weights', () => {
    const curve = curveOf([500, 501, 502], [0.5, 0.5, 0.5], 0.01);
    expect(weightBySky(curve, flat(1)).standardUncertainty).toBeCloseTo(0.01 * Math.hypot(0.5, 1, 0.5), 12);
  });

  it('weights serve any curve on the same pixels', () => {
    const nodes = Array.from({ length: 300 }, (_, i) => 600 + 0.37 * i);
    const curve = curveOf(
      nodes,
      nodes.map((at) => Math.sin(at) ** 2),
    );
    const weights = skyWeights(curve.wavelengthNm, flat(0.7));
    const sum = weights.reduce((total, weight, i) => total + weight * curve.transmittance[i]!, 0);
    expect(weightBySky(curve, flat(0.7)).photons).toBeCloseTo(sum, 12);
  });

  it.each([
    [
      { wavelengthNm: Float64Array.of(500, 600), photons: Float64Array.of(1, 1), lines: [] },
      'covers 650.0 to 660.0 nm, got 500.0 to 600.0 nm',
    ],
    [
      { wavelengthNm: Float64Array.of(500, 700), photons: Float64Array.of(1, -1), lines: [] },
      '0 or more, got -1 at index 1',
    ],
    [
      { wavelengthNm: Float64Array.of(700, 500), photons: Float64Array.of(1, 1), lines: [] },
      'strictly increasing',
    ],
    [{ ...flat(1), lines: [{ wavelengthNm: 655, photons: -2 }] }, 'sky lines of 0 or more'],
    [
      { wavelengthNm: Float64Array.of(500, 700), photons: Float64Array.of(1), lines: [] },
      'one length, got 2 and 1',
    ],
  ])('refuses a sky that cannot be (%#)', (sky: Sky, message) => {
    expect(() => weightBySky(curveOf([650, 660], [1, 1]), sky)).toThrow(RangeError);
    expect(() => weightBySky(curveOf([650, 660], [1, 1]), sky)).toThrow(message);
  });

  it.each([
    [[650, 660, 655], [1, 1, 1], 'strictly increasing wavelengths, got 655 at index 2'],
    [[650], [1], 'at least 2 pixels'],
    [[650, 660], [1, Number.NaN], 'finite transmittances'],
  ])('refuses a curve that cannot be (%#)', (nodes, values, message) => {
    expect(() => weightBySky(curveOf(nodes, values), flat(1))).toThrow(message);
  });

  it('does not change its arguments', () => {
    const curve = curveOf([650, 655, 660], [0, 1, 0]);
    const copy = Float64Array.from(curve.transmittance);
    weightBySky(curve, flat(1));
    expect(curve.transmittance).toEqual(copy);
  });
});

describe('detectedSky', () => {
  it('multiplies by the response and ends where its table ends', () => {
    const seen = detectedSky(
      { ...flat(2), lines: [{ wavelengthNm: 450, photons: 3 }] },
      { wavelengthNm: [400, 500], fraction: [0.4, 0.8] },
    );
    expect(seen.wavelengthNm[0]).toBe(400);
    expect(seen.photons[100]).toBeCloseTo(2 * 0.6, 12);
    expect(seen.lines[0]!.photons).toBeCloseTo(1.8, 12);
  });

  it.each([
    [1.2, 'a response from 0 to 1'],
    [{ wavelengthNm: [500, 400], fraction: [1, 1] }, 'rising wavelengths'],
    [{ wavelengthNm: [400, 500], fraction: [1, 2] }, 'responses from 0 to 1'],
    [{ wavelengthNm: [100, 200], fraction: [1, 1] }, 'covers the sky'],
  ])('refuses %j', (response, message) => {
    expect(() => detectedSky(flat(1), response)).toThrow(message);
  });
});

describe('skyShare', () => {
  // Same line transmittance, W against 100 nm of a flat sky: the root of 100 / W in signal to noise.
  it.each([
    [3, 5.7735],
    [5, 4.4721],
    [7, 3.7796],
    [12, 2.8868],
  ])('a window of %d nm: %d times the signal to noise of 100 nm', (widthNm, gain) => {
    const [from, to] = [650 - widthNm / 2, 650 + widthNm / 2];
    const share = skyShare(curveOf([from, to], [1, 1], 0.01), flat(0.3), { fromNm: 600, toNm: 700 });
    expect(share.effectiveWidthNm).toBeCloseTo(widthNm, 10);
    expect(1 / Math.sqrt(share.transmittance)).toBeCloseTo(gain, 4);
    expect(share.standardUncertainty).toBeCloseTo((0.01 * widthNm) / Math.SQRT2 / 100, 10);
  });

  it('refuses a range that is none', () => {
    expect(() => skyShare(curveOf([650, 660], [1, 1]), flat(1), { fromNm: 700, toNm: 600 })).toThrow('range');
  });
});
