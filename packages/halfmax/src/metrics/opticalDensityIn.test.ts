import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { opticalDensityIn } from './opticalDensityIn.js';
import type { Curve } from './types.js';

function curveOf(f: (nm: number) => number, u: number, stepNm = 0.5, seed = 8): Curve {
  const stream = randomStream(seed);
  const wavelengthNm = Float64Array.from(
    { length: Math.round(200 / stepNm) + 1 },
    (_, i) => 400 + i * stepNm,
  );
  return {
    wavelengthNm,
    transmittance: wavelengthNm.map((nm) => f(nm) + u * stream.normal()),
    standardUncertainty: new Float64Array(wavelengthNm.length).fill(u),
  };
}

describe('opticalDensityIn', () => {
  it('is minus the decimal logarithm of the mean transmittance, not the mean of logarithms', () => {
    const step = curveOf((nm) => (nm < 500 ? 0.1 : 0.01), 0);
    const found = opticalDensityIn(step, 450.25, 549.75, { strayLight: 0 });
    // 0.055 but for the half pixel at the step: 1 in 200
    expect(found.meanOpticalDensity).toMatchObject({ value: expect.closeTo(-Math.log10(0.055), 2) });
    expect(found.worstOpticalDensity).toMatchObject({ value: expect.closeTo(1, 9) });
    expect(found.seenShare).toBeCloseTo(1, 6);
  });

  it('weighs by wavelength, not by pixel', () => {
    // twice as many pixels per nm below 450
    const wavelengthNm = Float64Array.from(
      [...Array(101).keys()].map((i) => (i <= 66 ? 400 + i * 0.75 : 449.5 + (i - 66) * 1.5)),
    );
    const transmittance = wavelengthNm.map((nm) => (nm < 449.9 ? 0.04 : 0.02));
    const curve = { wavelengthNm, transmittance, standardUncertainty: new Float64Array(101) };
    const found = opticalDensityIn(curve, 400, 499, { strayLight: 0 });
    // 50 nm of each: 0.03, the border pixel of 1.1 nm aside
    expect(found.meanOpticalDensity).toMatchObject({ value: expect.closeTo(-Math.log10(0.03), 2) });
  });

  it('claims no more than the stray light of the instrument allows', () => {
    const dark = opticalDensityIn(
      curveOf(() => 0, 1e-5),
      420,
      580,
    );
    expect(dark.meanOpticalDensity).toMatchObject({
      atLeast: 3,
      why: expect.stringContaining('stray light'),
    });
    expect(dark.limit.transmittance).toBe(1e-3);
    const better = opticalDensityIn(
      curveOf(() => 0, 1e-5),
      420,
      580,
      { strayLight: 1e-5 },
    );
    expect(better.meanOpticalDensity).toMatchObject({ atLeast: 5 });
  });

  it('claims no more than noise allows: the floor of the mean falls with the root of the pixels', () => {
    const noisy = curveOf(() => 0, 0.01);
    const long = opticalDensityIn(noisy, 400, 600, { strayLight: 0 });
    const short = opticalDensityIn(noisy, 400, 450, { strayLight: 0 });
    // three times 0.01 over the root of 401 and 101 pixels; the two end pixels count half
    expect(long.limit.transmittance).toBeCloseTo(0.03 / Math.sqrt(401), 5);
    expect(short.limit.transmittance).toBeCloseTo(0.03 / Math.sqrt(101), 4);
    expect(long.meanOpticalDensity).toMatchObject({
      atLeast: expect.any(Number),
      why: expect.stringContaining('noise'),
    });
  });

  it('keeps its word: the true mean is below the bound given, in nearly all repeats', () => {
    let broken = 0;
    for (let seed = 0; seed < 200; seed++) {
      const found = opticalDensityIn(
        curveOf(() => 5e-4, 0.01, 0.5, seed),
        400,
        600,
        { strayLight: 0 },
      );
      const least = 'atLeast' in found.meanOpticalDensity ? found.meanOpticalDensity.atLeast : -Infinity;
      if (least > -Math.log10(5e-4)) broken++;
    }
    // meant for 95 %: 10 of 200 at most in the mean, 10 + 3 sqrt(9.5) = 19
    expect(broken).toBeLessThan(20);
  });

  it('leaves blind pixels out and says where blocking was seen', () => {
    const curve = curveOf(() => 0.001, 0.0001);
    curve.wavelengthNm.forEach((nm, i) => {
      if (nm < 450) curve.standardUncertainty[i] = 0.2;
    });
    const found = opticalDensityIn(curve, 400, 600, { strayLight: 0 });
    expect(found.seenFromNm).toBe(450);
    expect(found.seenToNm).toBe(600);
    expect(found.seenShare).toBeCloseTo(0.75, 2);
    expect(found.meanOpticalDensity).toMatchObject({ value: expect.closeTo(3, 1) });
    const blind = opticalDensityIn(curve, 400, 440);
    expect(blind.meanOpticalDensity).toMatchObject({ absent: expect.stringContaining('too high') });
    const beyond = opticalDensityIn(curve, 700, 800);
    expect(beyond.meanOpticalDensity).toMatchObject({ absent: expect.stringContaining('outside the scan') });
    expect(beyond.seenFromNm).toBeNull();
  });

  it('does not call one hot pixel a weak spot', () => {
    const curve = curveOf(() => 0, 0.0002);
    curve.transmittance[200] = 0.3;
    expect(opticalDensityIn(curve, 400, 600).worstOpticalDensity).toMatchObject({
      atLeast: expect.closeTo(3, 6),
    });
  });

  it('has no finite number for a curve of exact zeros without a limit', () => {
    const found = opticalDensityIn(
      curveOf(() => 0, 0),
      400,
      600,
      { strayLight: 0 },
    );
    expect(found.meanOpticalDensity).toMatchObject({ absent: expect.stringContaining('exactly zero') });
    expect(found.worstOpticalDensity).toMatchObject({ absent: expect.stringContaining('exactly zero') });
  });

  it('takes a floor per pixel, refuses bad options', () => {
    const curve = curveOf(() => 0, 0);
    const floor = new Float64Array(401).fill(0.02);
    expect(opticalDensityIn(curve, 400, 600, { floor, strayLight: 0 }).limit.transmittance).toBeCloseTo(
      0.02 / Math.sqrt(401),
      5,
    );
    expect(() => opticalDensityIn(curve, 400, 600, { floor: [1] })).toThrow('401 pixels, got 1');
    expect(() => opticalDensityIn(curve, 500, 400)).toThrow('toNm above fromNm');
    expect(() => opticalDensityIn(curve, 400, 500, { strayLight: -1 })).toThrow('strayLight');
  });
});
