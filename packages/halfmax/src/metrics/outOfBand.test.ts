import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { findBands } from './findBands.js';
import { outOfBand } from './outOfBand.js';
import type { Curve } from './types.js';

const bandAt =
  (centre: number, width: number) =>
  (nm: number): number =>
    0.9 * Math.exp(-(((nm - centre) / width) ** 8));

function curveOf(f: (nm: number) => number, u: number, fromNm = 450, toNm = 750): Curve {
  const stream = randomStream(21);
  const wavelengthNm = Float64Array.from(
    { length: Math.round((toNm - fromNm) / 0.25) + 1 },
    (_, i) => fromNm + i * 0.25,
  );
  return {
    wavelengthNm,
    transmittance: wavelengthNm.map((nm) => f(nm) + u * stream.normal()),
    standardUncertainty: new Float64Array(wavelengthNm.length).fill(u),
  };
}

describe('outOfBand', () => {
  it('leaves two FWHM to both sides of each centre out and names the rest', () => {
    const curve = curveOf((nm) => bandAt(501, 3)(nm) + bandAt(656, 3)(nm), 0);
    const found = outOfBand(curve, findBands(curve));
    expect(found.ranges.map((range) => range.name)).toEqual(['blue side', 'between bands', 'red side']);
    // FWHM of exp(-(x/w)^8): 2 w ln2^(1/8)
    const fwhm = 6 * Math.LN2 ** (1 / 8);
    expect(Math.abs(found.ranges[0]!.toNm - (501 - 2 * fwhm))).toBeLessThan(0.05);
    expect(Math.abs(found.ranges[1]!.fromNm - (501 + 2 * fwhm))).toBeLessThan(0.05);
    expect(found.rule).toContain('2 FWHM');
    expect(found.meanOpticalDensity).toMatchObject({ atLeast: 3 });
    expect(found.leaks).toEqual([]);
  });

  it('finds a leak with its place, height and width, and counts it in the mean', () => {
    const leak = (nm: number): number => (Math.abs(nm - 600.125) < 5 ? 0.05 : 0);
    const curve = curveOf((nm) => bandAt(656, 3)(nm) + leak(nm), 0.002);
    const found = outOfBand(curve, findBands(curve));
    expect(found.leaks).toHaveLength(1);
    const [seen] = found.leaks;
    // highest mean of three of 40 noisy pixels: 0.002 / sqrt(3) and three times that
    expect(Math.abs(seen!.peakTransmittance - 0.05)).toBeLessThan(0.0035);
    expect(seen!.widthNm).toBeCloseTo(10, 6);
    expect(seen!.fromNm).toBe(595.25);
    // 0.05 over 10 of the about 276 nm out of band
    const asked = found.ranges.reduce((sum, range) => sum + range.toNm - range.fromNm, 0);
    expect(found.meanOpticalDensity).toMatchObject({ value: expect.closeTo(-Math.log10(0.5 / asked), 1) });
    expect(found.worstOpticalDensity).toMatchObject({ value: expect.closeTo(1.3, 1) });
  });

  it('finds no leak in noise alone, and says where the weakest limit is', () => {
    const curve = curveOf(bandAt(656, 3), 0.004);
    const found = outOfBand(curve, findBands(curve));
    expect(found.leaks).toEqual([]);
    expect(found.worstOpticalDensity).toMatchObject({
      atLeast: expect.any(Number),
      atNm: expect.any(Number),
    });
    expect(found.seenFromNm).toBe(450);
    expect(found.seenToNm).toBe(750);
  });

  it('reports the ranges asked for, without what belongs to the band', () => {
    const curve = curveOf(bandAt(656, 3), 0.0001);
    const ranges = [{ name: 'claim', fromNm: 600, toNm: 700 }];
    const found = outOfBand(curve, findBands(curve), { ranges });
    expect(found.ranges).toHaveLength(1);
    expect(found.ranges[0]).toMatchObject({
      name: 'claim',
      fromNm: 600,
      toNm: 700,
      meanOpticalDensity: { atLeast: 3 },
    });
  });

  it('takes a band that is cut by the scan as going on', () => {
    const curve = curveOf(bandAt(656, 3), 0, 600, 656);
    const found = outOfBand(curve, findBands(curve));
    expect(found.ranges.map((range) => range.name)).toEqual(['blue side']);
  });

  it('says so when all of the scan is band', () => {
    const curve = curveOf(bandAt(656, 3), 0, 651, 661);
    const found = outOfBand(curve, findBands(curve));
    expect(found.meanOpticalDensity).toEqual({ absent: 'the scan does not reach outside the passbands' });
    expect(found.ranges).toEqual([]);
  });

  it('takes the whole scan where there is no band', () => {
    const curve = curveOf(() => 0, 0.0001);
    expect(outOfBand(curve, []).ranges.map((range) => range.name)).toEqual(['whole scan']);
  });

  it('refuses a range upside down and a rule that cuts into the band', () => {
    const curve = curveOf(bandAt(656, 3), 0);
    const bands = findBands(curve);
    expect(() => outOfBand(curve, bands, { ranges: [{ name: 'x', fromNm: 2, toNm: 1 }] })).toThrow(
      'toNm above fromNm',
    );
    expect(() => outOfBand(curve, bands, { widthsFromCentre: 0.2 })).toThrow('0.5 or more');
  });
});
