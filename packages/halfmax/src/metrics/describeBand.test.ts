import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalCdf } from '../numeric/index.js';
import type { BandMetrics } from './bandMetrics.js';
import { describeBand } from './describeBand.js';
import { findBands } from './findBands.js';
import { isAbsent } from './quantity.js';
import type { Curve, Measured, Quantity } from './types.js';

const centre = 656.28;

function curveOf(f: (offset: number) => number, reachNm: number, stepNm: number, shift = 0, u = 0): Curve {
  const count = Math.round((2 * reachNm) / stepNm);
  const wavelengthNm = Float64Array.from(
    { length: count },
    (_, i) => centre - reachNm + (i + shift) * stepNm,
  );
  return {
    wavelengthNm,
    transmittance: wavelengthNm.map((nm) => f(nm - centre)),
    standardUncertainty: new Float64Array(count).fill(u),
  };
}

function measured(quantity: Quantity): Measured {
  if (isAbsent(quantity)) throw new Error(quantity.absent);
  return quantity;
}
const value = (quantity: Quantity): number => measured(quantity).value;

function only(curve: Curve, lineSpreadNm?: number): BandMetrics {
  const bands = findBands(curve);
  expect(bands).toHaveLength(1);
  return describeBand(curve, bands[0]!, lineSpreadNm === undefined ? {} : { lineSpreadNm });
}

const F = 4;
const butterworth =
  (k: number) =>
  (x: number): number =>
    1 / (1 + Math.abs((2 * x) / F) ** (2 * k));
const superGaussian =
  (m: number) =>
  (x: number): number =>
    Math.exp(-Math.LN2 * Math.abs((2 * x) / F) ** (2 * m));

// Widths over FWHM. Closed forms: exp(-ln2 |2x/F|^2m) falls to r at (ln(1/r)/ln2)^(1/2m),
// 1/(1+|2x/F|^2k) at (1/r - 1)^(1/2k); slope at half 2 m ln2 / F x 1/2 x 2 and k / F.
describe('describeBand on closed forms', () => {
  it.each([
    ['Gaussian', superGaussian(1), 1.822615729, 2.577567883, 2 * Math.LN2],
    ['super-Gaussian m = 2', superGaussian(2), 1.350042862, Math.sqrt(2.577567883), 4 * Math.LN2],
    ['super-Gaussian m = 3', superGaussian(3), 1.221513782, Math.cbrt(2.577567883), 6 * Math.LN2],
    ['Lorentzian, Butterworth k = 1', butterworth(1), 3, 9.949874, 1],
    ['Butterworth k = 2', butterworth(2), 1.732050808, 3.154342, 2],
    ['Butterworth k = 3', butterworth(3), 1.44224957, 2.150829, 3],
    ['Butterworth k = 4', butterworth(4), 1.316074013, 1.776047, 4],
  ])('%s', (_, f, width10, width1, slope) => {
    const metrics = only(curveOf(f, 6 * F, 0.1, 0.3));
    // A local quadratic of window 0.2 F errs by 0.03 x (0.2 F)^4 T''''/24, at most 0.0008 of the peak (T'''' = 384 / F^4);
    // half of that over the slope, on both edges, and as much again for the cubic fits of the edges.
    expect(Math.abs(value(metrics.peakTransmittance) - 1)).toBeLessThan(0.001);
    expect(Math.abs(value(metrics.fwhmNm) - F)).toBeLessThan(0.0016 * (F / slope) * 1.5);
    expect(Math.abs(value(metrics.centreNm) - centre)).toBeLessThan(1e-3);
    expect(Math.abs(value(metrics.halfCrossingsNm.redNm) - centre - F / 2)).toBeLessThan(2e-3);
    expect(Math.abs(value(metrics.width10Nm) / F / width10 - 1)).toBeLessThan(0.002);
    expect(Math.abs(value(metrics.width1Nm) / F / width1 - 1)).toBeLessThan(0.002);
    expect(Math.abs((value(metrics.edges.blue.slopeAtHalfPerNm) * F) / slope - 1)).toBeLessThan(0.04);
    expect(value(metrics.edges.red.slopeAtHalfPerNm)).toBeCloseTo(
      -value(metrics.edges.blue.slopeAtHalfPerNm),
      2,
    );
    expect(metrics.leftOutNm).toEqual([]);
  });

  it.each([
    [superGaussian(1), 1.064467019],
    [superGaussian(2), 0.993378414],
    [superGaussian(3), 0.986156172],
    [butterworth(3), 1.047198],
    [butterworth(4), 1.026172],
    // Lorentzian between +-2 F: F atan(4)
    [butterworth(1), Math.atan(4)],
  ])('area under form %#', (f, share) => {
    const metrics = only(curveOf(f, 6 * F, 0.1, 0.3));
    // beyond +-2 F a Butterworth of k = 3 holds 2 x 4^-5 / (2 x 5) = 2.0e-4 F
    expect(Math.abs(value(metrics.equivalentWidthNm) / F - share)).toBeLessThan(4e-4);
    expect(Math.abs(value(metrics.definitions.centroidNm) - centre)).toBeLessThan(1e-3);
  });

  it.each([
    // rectangle W with a triangle of FWHM h: peak and width in closed form
    [3, 2, 0.9375, 3.127016654],
    [3, 3, 0.75, 3.803847577],
    [6, 2, 1, 6],
  ])('rectangle of %d nm seen with a triangle of %d nm', (w, h, peak, width) => {
    const area = (x: number): number =>
      x < -h ? 0 : x < 0 ? (x + h) ** 2 / 2 / h ** 2 : x < h ? 1 - (h - x) ** 2 / 2 / h ** 2 : 1;
    const metrics = only(
      curveOf((x) => area(x + w / 2) - area(x - w / 2), 20, 0.1, 0.3),
      h,
    );
    // kinks in the second derivative: h^2 terms of the window, 0.2 x 3 nm, over the triangle's 2 nm
    expect(Math.abs(value(metrics.peakTransmittance) - peak)).toBeLessThan(0.0025);
    expect(Math.abs(value(metrics.fwhmNm) - width)).toBeLessThan(0.006);
    if (w >= 2 * h) {
      const width10To90 = 2 * h * (1 - Math.sqrt(0.2));
      expect(Math.abs(value(metrics.edges.blue.width10To90Nm) - width10To90)).toBeLessThan(0.01);
    }
  });

  it.each([
    [1, 0.999587929, 3.000438636],
    [1.5, 0.981468322, 3.029588665],
    [2, 0.922623448, 3.164380053],
    [3, 0.760968109, 3.748112137],
  ])('rectangle of 3 nm seen with a Gaussian of %d nm', (f, peak, width) => {
    const sigma = f / 2.354820045;
    const metrics = only(
      curveOf((x) => normalCdf((x + 1.5) / sigma) - normalCdf((x - 1.5) / sigma), 20, 0.1, 0.3),
      f,
    );
    expect(Math.abs(value(metrics.peakTransmittance) - peak)).toBeLessThan(0.002);
    expect(Math.abs(value(metrics.fwhmNm) - width)).toBeLessThan(0.005);
  });

  it.each([
    [3, 1.5, 3.354101966, 0.894427191],
    [6, 0.7, 6.040695324, 0.993263139],
  ])('Gaussian of %d nm seen with one of %d nm: widths add in squares', (w, f, width, peak) => {
    const metrics = only(
      curveOf((x) => (w / width) * 2 ** -(((2 * x) / width) ** 2), 25, 0.15, 0.3),
      f,
    );
    expect(Math.abs(value(metrics.fwhmNm) - width)).toBeLessThan(0.005);
    expect(Math.abs(value(metrics.peakTransmittance) - peak)).toBeLessThan(0.001);
  });
});

describe('describeBand', () => {
  it('takes the outermost crossings of a rippled top that dips below half in its middle', () => {
    // humps of 1 and 0.9 with a valley of 0.48: below half of the higher, above half of the lower
    const humps = (x: number): number => {
      const left = Math.exp(-(((x + 2) / 1.2) ** 4));
      const right = 0.9 * Math.exp(-(((x - 2) / 1.2) ** 4));
      return Math.max(left, right, Math.abs(x) < 2 ? 0.48 : 0);
    };
    const metrics = only(curveOf(humps, 20, 0.1, 0.3));
    const left = -2 - 1.2 * Math.LN2 ** 0.25;
    const right = 2 + 1.2 * Math.log(0.9 / 0.5) ** 0.25;
    expect(Math.abs(value(metrics.fwhmNm) - (right - left))).toBeLessThan(0.01);
    expect(Math.abs(value(metrics.centreNm) - centre - (right + left) / 2)).toBeLessThan(0.005);
  });

  it('tells definitions apart: absolute half, mean of the top, maximum sample', () => {
    const curve = curveOf((x) => 0.8 * butterworth(3)(x), 20, 0.1, 0.3);
    const { definitions } = only(curve);
    // 0.8 / (1 + t^6) = 0.5 at t = 0.6^(1/6)
    expect(value(definitions.absoluteHalf.widthNm)).toBeCloseTo(F * 0.6 ** (1 / 6), 2);
    expect(value(definitions.absoluteHalf.centreNm)).toBeCloseTo(centre, 3);
    // mean of 1 / (1 + t^6) for t up to 0.25^(1/6), by Simpson's rule here
    const edge = 0.25 ** (1 / 6);
    let sum = 0;
    for (let i = 0; i <= 1000; i++)
      sum += (i % 1000 === 0 ? 1 : i % 2 === 1 ? 4 : 2) / (1 + ((i / 1000) * edge) ** 6);
    expect(value(definitions.meanTop)).toBeCloseTo((0.8 * sum) / 3000, 3);
    expect(value(definitions.maximumSample)).toBe(Math.max(...curve.transmittance));
  });

  it('says why where there is no number', () => {
    const cut = curveOf(butterworth(3), 20, 0.1);
    const end = cut.wavelengthNm.findIndex((nm) => nm > centre + 1);
    const part: Curve = {
      wavelengthNm: cut.wavelengthNm.slice(0, end),
      transmittance: cut.transmittance.slice(0, end),
      standardUncertainty: cut.standardUncertainty.slice(0, end),
    };
    const metrics = only(part);
    const last = part.wavelengthNm[end - 1]!.toFixed(2);
    expect(metrics.fwhmNm).toEqual({
      absent: `the band does not fall to half of its peak before the end of the scan at ${last} nm`,
    });
    expect(metrics.peakTransmittance).toEqual(metrics.fwhmNm);

    const short = only(curveOf(butterworth(1), 1.2 * F, 0.1));
    expect(isAbsent(short.fwhmNm)).toBe(false);
    expect(short.width10Nm).toMatchObject({
      absent: expect.stringContaining('does not fall to a transmittance of 0.10'),
    });
    expect(short.equivalentWidthNm).toMatchObject({ absent: expect.stringContaining('two FWHM') });

    const whole = curveOf(butterworth(3), 20, 0.1);
    const floored = describeBand(whole, findBands(whole)[0]!, { floor: 0.02 });
    expect(isAbsent(floored.width10Nm)).toBe(false);
    expect(floored.width1Nm).toMatchObject({
      absent: expect.stringContaining('below what can be told from zero'),
    });

    const low = only(curveOf((x) => 0.4 * butterworth(3)(x), 20, 0.1));
    expect(low.definitions.absoluteHalf.widthNm).toMatchObject({ absent: expect.stringContaining('0.5') });
  });

  it('does not bridge a gap at a crossing', () => {
    const whole = curveOf(butterworth(3), 20, 0.1, 0.3);
    const without = (from: number, to: number): Curve => {
      const kept = [...whole.wavelengthNm.keys()].filter((i) => {
        const x = whole.wavelengthNm[i]! - centre;
        return x < from || x > to;
      });
      const pick = (array: Float64Array): Float64Array => Float64Array.from(kept, (i) => array[i]!);
      return {
        wavelengthNm: pick(whole.wavelengthNm),
        transmittance: pick(whole.transmittance),
        standardUncertainty: pick(whole.standardUncertainty),
      };
    };
    expect(only(without(1.8, 2.3)).fwhmNm).toMatchObject({ absent: expect.stringContaining('no pixels') });
    // one missing pixel is bridged: the cubic over 0.2 nm instead of 0.1 is good to 1e-3 here
    expect(Math.abs(value(only(without(1.95, 2.05)).fwhmNm) - F)).toBeLessThan(3e-3);
  });

  it('leaves a hot pixel on the top out and names it', () => {
    const curve = curveOf(butterworth(3), 20, 0.1, 0.3, 0.003);
    const hot = curve.wavelengthNm.findIndex((nm) => nm > centre);
    const clean = only(curve);
    curve.transmittance[hot] = 1.6;
    const metrics = only(curve);
    expect(metrics.leftOutNm).toEqual([curve.wavelengthNm[hot]]);
    expect(Math.abs(value(metrics.peakTransmittance) - value(clean.peakTransmittance))).toBeLessThan(1e-3);
  });

  it('moves, scales and mirrors with the band', () => {
    const f = (x: number): number => butterworth(3)(x) * (1 - 0.03 * x);
    fc.assert(
      fc.property(
        fc.double({ min: -100, max: 100, noNaN: true }),
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        (shift, scale) => {
          const curve = curveOf(f, 20, 0.15, 0.37);
          const base = only(curve);
          const changed = only({
            ...curve,
            wavelengthNm: curve.wavelengthNm.map((nm) => nm + shift),
            transmittance: curve.transmittance.map((t) => scale * t),
          });
          // rounding of 600 nm in double precision, magnified by the fits: 1e-8
          expect(Math.abs(value(changed.centreNm) - value(base.centreNm) - shift)).toBeLessThan(1e-7);
          expect(Math.abs(value(changed.fwhmNm) - value(base.fwhmNm))).toBeLessThan(1e-7);
          expect(Math.abs(value(changed.width10Nm) - value(base.width10Nm))).toBeLessThan(1e-7);
          expect(
            Math.abs(value(changed.peakTransmittance) - scale * value(base.peakTransmittance)),
          ).toBeLessThan(1e-7);
          const mirrored = only({
            ...curve,
            wavelengthNm: curve.wavelengthNm.map((nm) => 2 * centre - nm).reverse(),
            transmittance: curve.transmittance.slice().reverse(),
          });
          // the places of the fits are counted from the blue end: half a pixel apart, where cubics join them to 1e-4
          expect(Math.abs(value(mirrored.centreNm) + value(base.centreNm) - 2 * centre)).toBeLessThan(5e-4);
          expect(Math.abs(value(mirrored.fwhmNm) - value(base.fwhmNm))).toBeLessThan(5e-4);
        },
      ),
      { numRuns: 20, seed: 4 },
    );
  });

  it('does not touch its input and gives the same numbers twice', () => {
    const curve = curveOf(butterworth(3), 20, 0.15, 0.3, 0.003);
    const copy = structuredClone(curve);
    expect(only(curve)).toEqual(only(curve));
    expect(curve).toEqual(copy);
  });
});

describe('describeBand and other tools', () => {
  const file = new URL('../../../../tests/reference/metrics/data.json', import.meta.url);
  const { curves } = JSON.parse(readFileSync(file, 'utf8')) as {
    curves: {
      name: string;
      wavelengthNm: number[];
      transmittance: number[];
      expected: Record<string, number>;
    }[];
  };

  it.each(curves.map((entry) => [entry.name, entry] as const))(
    'agrees with scipy on the formula of %s',
    (_, entry) => {
      const wavelengthNm = Float64Array.from(entry.wavelengthNm);
      const curve = {
        wavelengthNm,
        transmittance: Float64Array.from(entry.transmittance),
        standardUncertainty: new Float64Array(wavelengthNm.length),
      };
      const metrics = only(curve);
      const expected = entry.expected;
      expect(Math.abs(value(metrics.peakTransmittance) - expected['peakTransmittance']!)).toBeLessThan(0.002);
      expect(Math.abs(value(metrics.fwhmNm) - expected['fwhmNm']!)).toBeLessThan(0.008);
      expect(Math.abs(value(metrics.centreNm) - expected['centreNm']!)).toBeLessThan(0.004);
      // trapezoids on a smooth curve that has fallen to nothing at both ends
      expect(Math.abs(value(metrics.equivalentWidthNm) - expected['equivalentWidthNm']!)).toBeLessThan(0.002);
      expect(Math.abs(value(metrics.definitions.centroidNm) - expected['centroidNm']!)).toBeLessThan(0.002);
    },
  );

  it('reads the filter of NIST StRD Eckerle4 within its own noise', () => {
    const path = new URL('../../../../tests/published/strd/nonlinear/data.json', import.meta.url);
    const sets: { name: string; x: number[]; y: number[]; residualStandardDeviation: number }[] = JSON.parse(
      readFileSync(path, 'utf8'),
    ).sets;
    const set = sets.find((entry) => entry.name === 'Eckerle4')!;
    expect(set.x).toHaveLength(35);
    const curve: Curve = {
      wavelengthNm: Float64Array.from(set.x),
      transmittance: Float64Array.from(set.y),
      // certified, 6.763e-3: misfit of the Gaussian and noise together
      standardUncertainty: new Float64Array(35).fill(set.residualStandardDeviation),
    };
    const metrics = only(curve);
    // Certified parameters b1, b2, b3 give centre 451.5412 (0.0468), FWHM 2.354820 b2 = 9.62846 (0.110), peak b1 / b2 = 0.380153.
    // Four pixels on each edge instead of a fit to all: within 2 of the standard uncertainties that follow from the residuals.
    for (const [found, certified] of [
      [metrics.centreNm, 451.54121844],
      [metrics.fwhmNm, 9.62846],
      [metrics.peakTransmittance, 0.380153],
    ] as const) {
      const { value: number, standardUncertainty } = measured(found);
      expect(Math.abs(number - certified)).toBeLessThan(2 * standardUncertainty);
    }
    // and these uncertainties are no excuse: a quarter of a pixel of 1.5 nm, 2 % of the peak
    expect(measured(metrics.centreNm).standardUncertainty).toBeLessThan(0.15);
    expect(measured(metrics.fwhmNm).standardUncertainty).toBeLessThan(0.375);
    expect(measured(metrics.peakTransmittance).standardUncertainty).toBeLessThan(0.0076);
  });
});
