import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { describeBand } from './describeBand.js';
import { findBands } from './findBands.js';
import type { Curve, Measured } from './types.js';

const centre = 656.28;
const box = (x: number): number => 0.9 / (1 + Math.abs(x / 3.5) ** 12);
const wave = (x: number, periodNm: number, height: number): number =>
  1 + height * Math.cos((2 * Math.PI * x) / periodNm);

const tops: [string, (x: number) => number][] = [
  ['single peak', (x) => 0.9 * 2 ** -(((2 * x) / 5) ** 2)],
  ['flat', box],
  ['rounded', (x) => 0.9 / (1 + Math.abs(x / 3.5) ** 6)],
  ['three ripples, the middle one highest', (x) => box(x) * wave(x - 0.2, 2.6, 0.01)],
  ['two equal ripples', (x) => box(x) * wave(x, 2.6, -0.01)],
  ['three shallow ripples', (x) => box(x) * wave(x, 1.9, 0.003)],
  ['ripples on a slope', (x) => box(x) * wave(x, 2.2, 0.004) * (1 + 0.001 * x)],
];

const wavelengthNm = Float64Array.from({ length: 350 }, (_, i) => centre - 30 + 0.17 * (i + 0.2));
const curveOf = (f: (x: number) => number, noise: number, draw: () => number): Curve => ({
  wavelengthNm,
  transmittance: wavelengthNm.map((nm) => f(nm - centre) + noise * draw()),
  standardUncertainty: new Float64Array(wavelengthNm.length).fill(noise),
});
const peakOf = (curve: Curve): Measured =>
  describeBand(curve, findBands(curve)[0]!, { lineSpreadNm: 1.1 }).peakNm as Measured;

/** Share of intervals that hold the peak of the smoothed curve without noise. */
function held(f: (x: number) => number, noise: number, draws: number): number {
  const stream = randomStream(404);
  const truth = peakOf(curveOf(f, noise, () => 0)).value;
  let count = 0;
  for (let k = 0; k < draws; k++) {
    const [low, high] = peakOf(curveOf(f, noise, () => stream.normal())).interval95;
    if (low <= truth && truth <= high) count++;
  }
  return count / draws;
}

describe('the 95 % interval of the place of the peak', () => {
  it('holds the peak without noise, whatever the top', { tags: ['long'] }, () => {
    const shares = [0.001, 0.003, 0.01].flatMap((noise) => tops.map(([, f]) => held(f, noise, 100)));
    const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
    // 21 x 100 draws: the mean scatters by sqrt(0.95 x 0.05 / 2100) = 0.5 %
    expect(mean).toBeGreaterThan(0.93);
    expect(mean).toBeLessThan(0.97);
    // a single top scatters by sqrt(0.95 x 0.05 / 100) = 2.2 %; the rounded top in 0.3 % noise is the least, with 89 %
    expect(Math.min(...shares)).toBeGreaterThan(0.85);
  });

  it('reaches over two maxima that noise does not tell apart, and not where it does', () => {
    const twins = peakOf(curveOf(tops[4]![1], 0.003, () => 0)).interval95;
    // the maxima of the ripple lie 1.3 nm to both sides of the centre
    expect(twins[0]).toBeLessThan(centre - 1);
    expect(twins[1]).toBeGreaterThan(centre + 1);
    const [low, high] = peakOf(
      curveOf(
        (x) => tops[4]![1](x) * (1 + 0.01 * x),
        0.001,
        () => 0,
      ),
    ).interval95;
    expect(low).toBeGreaterThan(centre);
    expect(high - low).toBeLessThan(0.5);
  });

  it('is a single place where no pixel is uncertain', () => {
    const { value, standardUncertainty, interval95 } = peakOf(curveOf(box, 0, () => 0));
    expect([standardUncertainty, ...interval95]).toEqual([0, value, value]);
  });
});
