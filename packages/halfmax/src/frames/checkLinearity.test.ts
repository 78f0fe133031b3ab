import { describe, expect, it } from 'vitest';
import { checkLinearity } from './checkLinearity.js';
import type { Detector, FrameEntry } from './types.js';

const detectorOf = (linearity: number[], saturationCounts = 64000): Detector => ({
  pixels: 3,
  saturationCounts,
  wavelengthStartNm: null,
  wavelengthEndNm: null,
  linearity,
});
const holding = (...counts: number[]): FrameEntry[] => [
  {
    index: 0,
    role: 'open',
    exposureMs: 1,
    lamp: null,
    filter: null,
    takenAtMs: null,
    scans: [{ file: 'a.csv', column: '', wavelengthNm: null, counts: Float64Array.from(counts) }],
  },
];

describe('checkLinearity', () => {
  it('names the count where a polynomial turns back', () => {
    // m - 1e-5 m^2 rises up to m = 50 000: d/dm = 1 - 2e-5 m
    const check = (top: number) => () => checkLinearity(holding(700, top), detectorOf([1, -1e-5]));
    expect(check(60000)).toThrow(
      /^session\.json: detector\.linearity: makes fewer counts of more from 500\d\d measured counts on: .*hold 700 to 60000/,
    );
    expect(check(49000)).not.toThrow();
  });

  it('names the count where a polynomial makes counts of 0 or below', () => {
    // falls throughout, through 0 at the first count of the frames
    expect(() => checkLinearity(holding(100, 200), detectorOf([-1]))).toThrow(
      /detector\.linearity: makes -100 of 100 measured counts/,
    );
    // negative up to m = 400, rising from 200 on
    expect(() => checkLinearity(holding(300, 2000), detectorOf([-4, 1e-2]))).toThrow(
      /makes -300 of 300 measured counts/,
    );
  });

  it('looks at the counts used only, and lets noise below 0 and undefined values pass', () => {
    expect(() => checkLinearity(holding(-5, 700, 64001), detectorOf([1, -1e-5], 49000))).not.toThrow();
    expect(() => checkLinearity(holding(-5, Number.NaN, 900), detectorOf([1, 1e-6]))).not.toThrow();
    expect(() => checkLinearity(holding(5, 900), { ...detectorOf([]), linearity: null })).not.toThrow();
  });
});
