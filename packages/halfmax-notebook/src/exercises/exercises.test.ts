import { describe, expect, it } from 'vitest';
import {
  checkHalfLevel,
  checkNoisyPeak,
  checkPeakFactor,
  checkSquares,
  checkWidth,
  feedbackText,
  type PeakAnswer,
} from './index.js';

const noNumbers = [Number.NaN, Number.POSITIVE_INFINITY, '0.45' as unknown as number];

describe('checkHalfLevel', () => {
  it('takes half of the peak within a hundredth, and nothing else', () => {
    expect(checkHalfLevel(0.45, 0.9).right).toBe(true);
    expect(checkHalfLevel(0.4544, 0.9).right).toBe(true);
    expect(checkHalfLevel(0.4556, 0.9).right).toBe(false);
    expect(checkHalfLevel(-0.45, 0.9).right).toBe(false);
    expect(checkHalfLevel(0, 0.9).right).toBe(false);
  });

  it('knows the usual mistakes by what they lead to', () => {
    expect(checkHalfLevel(0.5, 0.9)).toMatchObject({
      right: false,
      says: expect.stringContaining('maximum'),
    });
    expect(checkHalfLevel(45, 0.9)).toMatchObject({
      right: false,
      says: expect.stringContaining('per cent'),
    });
    expect(checkHalfLevel(0.9, 0.9)).toMatchObject({
      right: false,
      says: expect.stringContaining('peak itself'),
    });
  });

  it('takes a half where the peak is 1', () => {
    expect(checkHalfLevel(0.5, 1).right).toBe(true);
  });

  it('refuses a peak that is none', () => {
    for (const peak of [0, -1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => checkHalfLevel(0.5, peak)).toThrow(RangeError);
  });
});

describe('checkWidth', () => {
  // A triangle of height 0.8 between 650 and 660 nm: half of the peak at 652.5 and 657.5, so 5 nm wide.
  const triangle = { wavelengthNm: [648, 650, 655, 660, 662], transmittance: [0, 0, 0.8, 0, 0] };

  it('takes the distance at half of the peak, along straight lines', () => {
    expect(checkWidth(5, triangle).right).toBe(true);
    expect(checkWidth(2, triangle).right).toBe(false);
    expect(checkWidth(9, triangle)).toMatchObject({
      right: false,
      says: expect.stringContaining('too large'),
    });
    expect(checkWidth(0.1, triangle)).toMatchObject({
      right: false,
      says: expect.stringContaining('too small'),
    });
  });

  it('knows half of the width and the width at 0.5', () => {
    expect(checkWidth(2.5, triangle)).toMatchObject({
      right: false,
      says: expect.stringContaining('*full*'),
    });
    // Finer table: at 0.5 the triangle is 10 (1 - 0.5 / 0.8) = 3.75 nm wide.
    const wavelengthNm = Array.from({ length: 41 }, (_, i) => 648 + 0.35 * i);
    const fine = {
      wavelengthNm,
      transmittance: wavelengthNm.map((nm) => Math.max(0, 0.8 * (1 - Math.abs(nm - 655) / 5))),
    };
    expect(checkWidth(5, fine).right).toBe(true);
    expect(checkWidth(3.75, fine)).toMatchObject({ right: false, says: expect.stringContaining('0.5') });
  });

  it('wants the outermost crossings of a band that dips below half inside', () => {
    const twin = { wavelengthNm: [0, 1, 2, 3, 4, 5, 6], transmittance: [0, 0.8, 0.8, 0.2, 0.8, 0.8, 0] };
    // Outermost: 0.5 to 5.5. The first two: 0.5 and 2 + 0.4 / 0.6.
    expect(checkWidth(5, twin).right).toBe(true);
    expect(checkWidth(2.17, twin)).toMatchObject({ right: false, says: expect.stringContaining('dips') });
  });

  it('refuses a table that holds no band', () => {
    expect(() => checkWidth(1, { wavelengthNm: [1, 2, 3], transmittance: [0.1, 0.5, 0.9] })).toThrow(
      RangeError,
    );
    expect(() => checkWidth(1, { wavelengthNm: [1, 2], transmittance: [0, 1, 0] })).toThrow(RangeError);
  });
});

describe('checkNoisyPeak', () => {
  it('takes the one right answer', () => {
    expect(checkNoisyPeak('too high').right).toBe(true);
    expect(checkNoisyPeak('too low').right).toBe(false);
    expect(checkNoisyPeak('neither').right).toBe(false);
    expect(checkNoisyPeak('higher' as PeakAnswer)).toMatchObject({
      right: false,
      says: expect.stringContaining("'neither'"),
    });
  });
});

describe('checkSquares', () => {
  // 3, 4, 5.
  const widths = { measuredNm: 5, lineSpreadNm: 4 };

  it('takes the root of the difference of squares', () => {
    expect(checkSquares(3, widths).right).toBe(true);
    expect(checkSquares(3.02, widths).right).toBe(true);
    expect(checkSquares(3.04, widths).right).toBe(false);
    // 3.0 blurred by 1.5 is 3.354101966 wide.
    expect(checkSquares(3, { measuredNm: 3.354101966, lineSpreadNm: 1.5 }).right).toBe(true);
  });

  it('knows the usual mistakes', () => {
    expect(checkSquares(1, widths)).toMatchObject({ right: false, says: expect.stringContaining('squares') });
    expect(checkSquares(6.403, widths)).toMatchObject({
      right: false,
      says: expect.stringContaining('other way'),
    });
    expect(checkSquares(5, widths)).toMatchObject({
      right: false,
      says: expect.stringContaining('as measured'),
    });
  });

  it('refuses widths that make no sense', () => {
    expect(() => checkSquares(3, { measuredNm: 4, lineSpreadNm: 4 })).toThrow(RangeError);
    expect(() => checkSquares(3, { measuredNm: 4, lineSpreadNm: 0 })).toThrow(RangeError);
  });
});

describe('checkPeakFactor', () => {
  const peaks = { trueTransmittance: 0.9, measuredTransmittance: 0.75 };

  it('takes the ratio of the peaks', () => {
    expect(checkPeakFactor(1.2, peaks).right).toBe(true);
    expect(checkPeakFactor(1.25, peaks).right).toBe(false);
  });

  it('knows the usual mistakes', () => {
    expect(checkPeakFactor(0.8333, peaks)).toMatchObject({
      right: false,
      says: expect.stringContaining('shrinks'),
    });
    expect(checkPeakFactor(1.44, peaks)).toMatchObject({
      right: false,
      says: expect.stringContaining('once'),
    });
  });

  it('refuses peaks that are none', () => {
    expect(() => checkPeakFactor(1, { trueTransmittance: 0, measuredTransmittance: 0.5 })).toThrow(
      RangeError,
    );
  });
});

describe('answers that are none', () => {
  it('says how to answer where there is no answer', () => {
    const table = { wavelengthNm: [1, 2, 3], transmittance: [0, 1, 0] };
    const all = [
      checkHalfLevel(null, 0.9),
      checkWidth(null, table),
      checkNoisyPeak(null),
      checkSquares(null, { measuredNm: 5, lineSpreadNm: 4 }),
      checkPeakFactor(null, { trueTransmittance: 0.9, measuredTransmittance: 0.8 }),
    ];
    for (const feedback of all)
      expect(feedback).toMatchObject({ right: null, says: expect.stringContaining('null') });
  });

  it('wants a number', () => {
    for (const answer of noNumbers)
      expect(checkHalfLevel(answer, 0.9)).toMatchObject({
        right: false,
        says: expect.stringContaining('number'),
      });
  });

  it('is shown with its verdict', () => {
    expect(feedbackText('Exercise 1', checkHalfLevel(0.45, 0.9))).toMatch(
      /^\*\*Exercise 1: right\.\*\* Half/,
    );
    expect(feedbackText('Exercise 1', checkHalfLevel(0.4, 0.9))).toMatch(
      /^\*\*Exercise 1: not yet\.\*\* Read/,
    );
    expect(feedbackText('Exercise 1', checkHalfLevel(null, 0.9))).toMatch(
      /^\*\*Exercise 1\.\*\* Not answered/,
    );
  });
});
