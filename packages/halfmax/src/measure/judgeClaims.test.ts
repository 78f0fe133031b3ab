import { describe, expect, it } from 'vitest';
import type { Quantity } from '../metrics/index.js';
import { normalQuantile } from '../numeric/index.js';
import type { DecisionRule } from '../verdict/index.js';
import { judgeClaims } from './judgeClaims.js';

type Bands = Parameters<typeof judgeClaims>[0];

const absent = { absent: 'not in this example' };
const number = (value: number, standardUncertainty: number): Quantity => ({
  value,
  standardUncertainty,
  interval95: [value - 2 * standardUncertainty, value + 2 * standardUncertainty],
});
/** Quantiles of the normal distribution, evenly spread: draws without chance. */
const normalDraws = (value: number, u: number): Float64Array =>
  Float64Array.from({ length: 2000 }, (_, i) => value + u * normalQuantile((i + 0.5) / 2000));

/** A band of 3.10 nm with u = 0.05 nm, as measured 3.30 nm with u = 0.01 nm. */
function bandOf(corrected: Quantity = number(3.1, 0.05), centreNm = 656): Bands[number] {
  const numbers = (fwhmNm: Quantity) => ({
    fwhmNm,
    centreNm: number(centreNm, 0.01),
    peakNm: absent,
    peakTransmittance: number(0.9, 0.004),
    transmittanceAtLine: absent,
  });
  const band = {
    report: { asMeasured: numbers(number(3.3, 0.01)), corrected: numbers(corrected) },
    spread: {
      samples: (name: string, value: number) =>
        name.endsWith('fwhm') ? normalDraws(value, name.startsWith('corrected') ? 0.05 : 0.01) : null,
    },
  };
  return band as unknown as Bands[number];
}

/** A curve of optical density 2, but for one dip to 1.7 around 550 nm. */
const scaled = (() => {
  const wavelengthNm = Float64Array.from({ length: 401 }, (_, i) => 500 + 0.25 * i);
  const transmittance = wavelengthNm.map((nm) => (Math.abs(nm - 550) < 2 ? 0.02 : 0.01));
  const standardUncertainty = new Float64Array(401).fill(1e-4);
  const curve = { wavelengthNm, transmittance, standardUncertainty };
  return { curve, bands: [], limits: { floor: new Float64Array(401).fill(3e-4) } };
})();
const usual: DecisionRule = { kind: 'probability', probability: 0.95 };

describe('judgeClaims', () => {
  it.each([
    // One limit of 3.20 nm, 2 standard uncertainties away: the chance is the normal integral up to 2, 97.7 %.
    [usual, 'met'],
    [{ kind: 'probability', probability: 0.99 }, 'undecided'],
    [{ kind: 'simple' }, 'met'],
    [{ kind: 'guarded', multiple: 1, coverageFactor: 3 }, 'undecided'],
  ] satisfies [DecisionRule, string][])('goes by the rule %j', (rule, verdict) => {
    const [[report]] = judgeClaims([bandOf()], { fwhmNm: { atMost: 3.2 } }, scaled, rule) as [[never]];
    expect(report).toMatchObject({ basis: 'corrected', verdict, step: null });
    expect((report as { probabilityMet: number }).probabilityMet).toBeCloseTo(0.97725, 3);
  });

  it('judges the number as measured where there is no corrected one', () => {
    const [[report]] = judgeClaims([bandOf(absent)], { fwhmNm: { atMost: 3.2 } }, scaled, usual) as [[never]];
    expect(report).toMatchObject({ basis: 'measured', verdict: 'not met' });
  });

  it('counts the rounding of a value without a tolerance as rectangular', () => {
    const [[width, peak]] = judgeClaims(
      [bandOf()],
      { fwhmNm: { value: 3 }, peakTransmittance: { value: 0.9 } },
      scaled,
      usual,
    ) as [[never, never]];
    expect(width).toMatchObject({ step: 1, verdict: 'no tolerance stated' });
    const of = (report: { deviation: { standardUncertainty: number } }): number =>
      report.deviation.standardUncertainty;
    // JCGM 100:2008, 4.3.7: a rectangle of full width a has the standard uncertainty a / sqrt(12).
    expect(of(width)).toBeCloseTo(Math.hypot(0.05, 1 / Math.sqrt(12)), 4);
    expect(of(peak)).toBeCloseTo(Math.hypot(0.004, 0.01 / Math.sqrt(12)), 8);
  });

  it('counts drift of the lamp and the level of the dark in an optical density', () => {
    const judged = (limits: object) =>
      judgeClaims(
        [bandOf()],
        { opticalDensity: { atLeast: 1.6, fromNm: 510, toNm: 590 } },
        { ...scaled, limits: { ...scaled.limits, strayLight: 0, ...limits } },
        usual,
      )[0]![0]!.measured as { value: number; standardUncertainty: number; interval95: readonly number[] };
    const u = (limits: object): number => judged(limits).standardUncertainty * 0.02 * Math.LN10;
    // of the transmittance 0.02: the mean of three pixels with 1e-4 each, 5 % of level, 5e-4 that all pixels share
    expect(u({})).toBeCloseTo(1e-4 / Math.sqrt(3), 9);
    expect(u({ levelUncertainty: 0.05 })).toBeCloseTo(Math.hypot(1e-4 / Math.sqrt(3), 1e-3), 9);
    const shared = new Float64Array(401).fill(-5e-4);
    const floor = new Float64Array(401).fill(3 * Math.hypot(1e-4, 5e-4));
    expect(u({ shared, floor })).toBeCloseTo(Math.hypot(1e-4 / Math.sqrt(3), 5e-4), 9);
    const { value, standardUncertainty, interval95 } = judged({ levelUncertainty: 0.05 });
    expect(interval95[1]! - value).toBeCloseTo(1.959964 * standardUncertainty, 9);
  });

  it('holds a centre against the nearest band only, and a density once, at its worst place', () => {
    const claims = {
      centreNm: { value: 656.3, tolerance: 0.5 },
      opticalDensity: { atLeast: 3, fromNm: 510, toNm: 590 },
    };
    const [first, second] = judgeClaims([bandOf(undefined, 500), bandOf()], claims, scaled, usual);
    expect(first!.map(({ quantity }) => quantity)).toEqual(['opticalDensity 510 to 590 nm']);
    expect(second!.map(({ quantity }) => quantity)).toEqual(['centreNm']);
    const { measured, verdict } = first![0]!;
    expect(verdict).toBe('not met');
    expect(Math.abs(measured.atNm! - 550)).toBeLessThan(2);
    // -log10(0.02)
    expect('value' in measured && measured.value).toBeCloseTo(1.69897, 4);
  });
});
