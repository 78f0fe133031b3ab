import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { findBands } from './findBands.js';
import type { Curve } from './types.js';

function curveOf(
  f: (nm: number) => number,
  fromNm: number,
  toNm: number,
  stepNm = 0.2,
  u = 0,
  seed = 1,
): Curve {
  const stream = randomStream(seed);
  const wavelengthNm = Float64Array.from(
    { length: Math.round((toNm - fromNm) / stepNm) + 1 },
    (_, i) => fromNm + i * stepNm,
  );
  const transmittance = wavelengthNm.map((nm) => f(nm) + (u > 0 ? u * stream.normal() : 0));
  return { wavelengthNm, transmittance, standardUncertainty: new Float64Array(wavelengthNm.length).fill(u) };
}
const band =
  (centre: number, width: number, peak = 0.9) =>
  (nm: number): number =>
    peak / (1 + Math.abs((2 * (nm - centre)) / width) ** 6);

describe('findBands', () => {
  it('finds the two bands of a dual-band filter in noise of 1 %', () => {
    const found = findBands(curveOf((nm) => band(501, 7)(nm) + band(656, 5)(nm), 450, 720, 0.2, 0.01));
    expect(found.map((range) => range.truncated)).toEqual([null, null]);
    // a rough crossing: noise over slope, 0.01 / (0.9 x 3 / 7 per nm) = 0.03, straight lines on 0.2 nm steps less; four times that
    expect(Math.abs(found[0]!.blueNm - 497.5)).toBeLessThan(0.12);
    expect(Math.abs(found[1]!.redNm - 658.5)).toBeLessThan(0.12);
  });

  it('does not split a band at a ripple that stays above half of the peak', () => {
    const rippled = (nm: number): number => band(656, 8)(nm) * (1 - 0.4 * Math.cos(nm * 2.2) ** 2);
    expect(findBands(curveOf(rippled, 630, 680))).toHaveLength(1);
  });

  it.each([
    [0.55, 1],
    [0.45, 2],
  ])('with a dip to %d of the lower peak finds %d', (dip, count) => {
    // two humps of 0.8 and 0.6; the curve between them is a straight line pair down to the dip
    const humps = (nm: number): number => {
      if (nm < 650 || nm > 662) return 0;
      if (nm < 653) return (0.8 * (nm - 650)) / 3;
      if (nm < 656) return 0.8 + ((0.6 * dip - 0.8) * (nm - 653)) / 3;
      if (nm < 659) return 0.6 * dip + ((0.6 - 0.6 * dip) * (nm - 656)) / 3;
      return 0.6 - (0.6 * (nm - 659)) / 3;
    };
    expect(findBands(curveOf(humps, 640, 670, 0.1))).toHaveLength(count);
  });

  it('takes no hot pixel for a band, alone or in a pair', () => {
    const curve = curveOf(band(656, 6), 600, 700, 0.2, 0.003);
    curve.transmittance[40] = 1.5;
    curve.transmittance[90] = 0.7;
    curve.transmittance[91] = 0.9;
    expect(findBands(curve)).toHaveLength(1);
  });

  it('finds nothing in noise, however large', () => {
    expect(findBands(curveOf(() => 0, 600, 700, 0.2, 0.05))).toEqual([]);
    expect(findBands(curveOf(() => 0, 600, 700, 0.2, 0))).toEqual([]);
  });

  it('leaves out what is below a tenth of the highest peak', () => {
    expect(findBands(curveOf((nm) => band(656, 6)(nm) + band(620, 6, 0.08)(nm), 600, 700))).toHaveLength(1);
    expect(findBands(curveOf((nm) => band(656, 6)(nm) + band(620, 6, 0.1)(nm), 600, 700))).toHaveLength(2);
  });

  it.each([
    [600, 655, 'end'],
    [657, 700, 'start'],
    [655, 657.4, 'both'],
    [640, 670, null],
  ])('on a scan from %d to %d nm says that it cuts the band: %s', (from, to, truncated) => {
    expect(findBands(curveOf(band(656, 6), from, to)).map((range) => range.truncated)).toEqual([truncated]);
  });

  it('does not touch its input', () => {
    const curve = curveOf(band(656, 6), 640, 670, 0.2, 0.01);
    const copy = structuredClone(curve);
    findBands(curve);
    expect(curve).toEqual(copy);
  });

  it('refuses a curve out of order, with a number missing, or a strange threshold', () => {
    const good = curveOf(band(656, 6), 640, 670);
    const disordered = { ...good, wavelengthNm: good.wavelengthNm.slice().reverse() };
    expect(() => findBands(disordered)).toThrow('at index 1');
    const holed = { ...good, transmittance: good.transmittance.slice().fill(Number.NaN, 3, 4) };
    expect(() => findBands(holed)).toThrow('got NaN at index 3');
    expect(() => findBands({ ...good, transmittance: new Float64Array(3) })).toThrow(
      'three arrays of one length',
    );
    expect(() => findBands(good, { threshold: 1 })).toThrow('between 0 and 1');
  });
});
