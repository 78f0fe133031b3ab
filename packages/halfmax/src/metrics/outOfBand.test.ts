import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { findBands } from './findBands.js';
import { outOfBand } from './outOfBand.js';
import type { Curve } from './types.js';

const bandAt =
  (centre: number, width: number) =>
  (nm: number): number =>
    0.9 * Math.exp(-(((nm - centre) / width) ** 8));

function curveOf(f: (nm: number) => number, u: number, fromNm = 450, toNm = 750, seed = 21): Curve {
  const stream = randomStream(seed);
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
    expect(found.meanOpticalDensity).toMatchObject({ atLeast: 3, why: expect.stringContaining('assumed') });
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

  /** A soft-edged band: falls as 0.9 / (1 + (2 x / 3)^6), to 0.0002 at 2 FWHM. */
  const soft = (nm: number): number => 0.9 / (1 + ((2 * (nm - 501)) / 3) ** 6);
  /** A band of one cavity: a Lorentzian, still 0.05 at 2 FWHM and 0.014 at 4 FWHM. */
  const wide = (nm: number): number => 0.9 / (1 + ((2 * (nm - 600)) / 4) ** 2);
  const bump = (centre: number, height: number) => (nm: number) =>
    height * Math.exp(-0.5 * ((nm - centre) / 1.2) ** 2);

  it.each([0, 2e-4, 2e-3])('takes no foot of a band for a leak, noise %d', (u) => {
    for (const shape of [soft, wide, (nm: number) => wide(nm) + soft(nm)]) {
      const curve = curveOf(shape, u);
      const bands = findBands(curve);
      // a narrow zone, so that high and steep parts of the foot lie outside
      for (const widthsFromCentre of [0.8, 1.2, 2]) {
        expect(outOfBand(curve, bands, { widthsFromCentre }).leaks).toEqual([]);
      }
    }
  });

  it('finds no leak in the feet of bands in 100 curves with noise', () => {
    let found = 0;
    for (let seed = 0; seed < 100; seed++) {
      const curve = curveOf((nm) => wide(nm) + 5e-4, 3e-4, 500, 750, seed);
      found += outOfBand(curve, findBands(curve)).leaks.length;
    }
    // three pixels in a row of 1000 by chance: at most a few in a hundred curves
    expect(found).toBeLessThanOrEqual(3);
  });

  it.each([
    ['on the foot of a wide band', wide, 612, 0.02, 600],
    ['beside a steep band, just outside what is left out', soft, 509.5, 0.01, 501],
    ['on the blue side', wide, 585, 0.02, 600],
  ])('finds a bump %s', (_, shape, centre, height, bandNm) => {
    const curve = curveOf((nm) => shape(nm) + bump(centre, height)(nm), 2e-4);
    const bands = findBands(curve);
    expect(bands.map((band) => Math.round(band.peakNm))).toEqual([bandNm]);
    const { leaks } = outOfBand(curve, bands);
    expect(leaks).toHaveLength(1);
    // the top of the sum of foot and bump lies within half a nanometre of the bump's own
    expect(Math.abs(leaks[0]!.peakNm - centre)).toBeLessThan(0.7);
    expect(leaks[0]!.peakTransmittance / (shape(centre) + height)).toBeCloseTo(1, 1);
  });

  it('finds a bump between two bands, and not their feet', () => {
    const two = (nm: number): number => wide(nm) + wide(nm - 60) + bump(632, 0.03)(nm);
    const curve = curveOf(two, 2e-4);
    const { leaks } = outOfBand(curve, findBands(curve));
    expect(leaks).toHaveLength(1);
    expect(Math.abs(leaks[0]!.peakNm - 632)).toBeLessThan(0.7);
  });

  it('takes a foot as band up to where it meets stray light or falls no further, at the latest 4 FWHM out', () => {
    const u = 1e-4;
    const ends = (shape: (nm: number) => number): [number, number] => {
      const curve = curveOf(shape, u, 450, 750);
      const found = outOfBand(curve, findBands(curve));
      expect(found.rule).toContain('4 FWHM');
      return [found.ranges[0]!.toNm, found.ranges[1]!.fromNm];
    };
    // the Lorentzian meets no limit: the cap at 4 widths of 4 nm, as the single pixels show them, to 2 %
    const [blue, red] = ends(wide);
    expect(Math.abs(600 - blue - 16)).toBeLessThan(0.32);
    expect(Math.abs(red - 600 - 16)).toBeLessThan(0.32);
    // (2 x / 3)^4 = 899: down to 0.001 of stray light at 8.21 nm, the mean over seven pixels of 0.25 nm up to 0.9 nm later
    const quartic = (nm: number): number => 0.9 / (1 + ((2 * (nm - 501)) / 3) ** 4);
    const [, merged] = ends(quartic);
    expect(merged - 501).toBeGreaterThan(8.2);
    expect(merged - 501).toBeLessThan(9.4);
    // blocking of 1 % only: the fall of 4.56 / x^4 over 1.75 nm is lost in 3 sqrt(2 / 7) u = 1.6e-4 at x = 11.5 nm
    const [, flat] = ends((nm) => quartic(nm) + 0.01);
    expect(flat - 501).toBeGreaterThan(10);
    expect(flat - 501).toBeLessThan(11.9);
    // a foot that has merged before 2 FWHM changes nothing
    const [, sharp] = ends(soft);
    expect(Math.abs(sharp - 507)).toBeLessThan(0.1);
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
