import { describe, expect, it } from 'vitest';
import { isAbsent, type Quantity } from '../metrics/index.js';
import { curveInBeam } from './curveInBeam.js';
import { fastestRatio } from './fastestRatio.js';
import { lineInBeam } from './lineInBeam.js';

const scan = Float64Array.from({ length: 1001 }, (_, i) => 630 + 0.1 * i);
const band = {
  wavelengthNm: scan,
  transmittance: scan.map((x) => 0.9 / (1 + ((2 * (x - 656.9)) / 4) ** 6)),
  standardUncertainty: new Float64Array(scan.length).fill(0.004),
};
const measured = (number: Quantity): Exclude<Quantity, { absent: string }> => {
  if (isAbsent(number)) throw new Error(number.absent);
  return number;
};

describe('lineInBeam', () => {
  it('with one index and no noise: the curve in the beam', () => {
    const clean = { ...band, standardUncertainty: new Float64Array(scan.length) };
    const line = lineInBeam(clean, 656.3, [3], { effectiveIndex: 1.8, seed: 1, draws: 50 });
    const seen = curveInBeam(clean, { fNumber: 3 }, { effectiveIndex: 1.8 });
    const at = seen.wavelengthNm.findIndex((x) => x > 656.29);
    expect(measured(line.inBeam[0]!.transmittance).value).toBeCloseTo(seen.transmittance[at]!, 9);
    expect(measured(line.inBeam[0]!.transmittance).standardUncertainty).toBeLessThan(1e-12);
  });

  it('fastest ratio: the share is kept there and lost beyond', () => {
    const clean = { ...band, standardUncertainty: new Float64Array(scan.length) };
    const at = (fNumber: number): number => {
      const seen = lineInBeam(clean, 656.3, [fNumber], { effectiveIndex: 1.8, seed: 1, draws: 50 });
      return measured(seen.inBeam[0]!.transmittance).value / measured(seen.collimated).value;
    };
    const line = lineInBeam(clean, 656.3, [], { effectiveIndex: 1.8, seed: 1, draws: 50 });
    const fastest = measured(line.fastest.fNumber).value;
    // Straight between ratios 6 % apart: a few thousandths of the share.
    expect(at(fastest)).toBeCloseTo(0.9, 2);
    expect(at(fastest * 1.05)).toBeGreaterThan(0.9);
    expect(at(fastest / 1.05)).toBeLessThan(0.9);
  });

  it('an index between limits widens the fast end, not parallel light', () => {
    const line = lineInBeam(band, 656.3, [8, 3], { seed: 2, draws: 1000 });
    const parallel = measured(line.collimated).standardUncertainty;
    const slow = measured(line.inBeam[0]!.transmittance).standardUncertainty;
    const fast = measured(line.inBeam[1]!.transmittance).standardUncertainty;
    expect(parallel).toBeCloseTo(0.004, 3);
    expect(fast).toBeGreaterThan(5 * slow);
    const [low, high] = measured(line.fastest.fNumber).interval95;
    expect(high - low).toBeGreaterThan(0.3);
  });

  it('counts scale, level and temperature', () => {
    const plain = measured(
      lineInBeam(band, 658.6, [], { draws: 1000, seed: 3 }).collimated,
    ).standardUncertainty;
    const scale = lineInBeam(band, 658.6, [], { draws: 1000, seed: 3, scaleNm: 0.05 });
    const slope = (0.9 * 6 * 0.85 ** 5 * 0.5) / (1 + 0.85 ** 6) ** 2; // of the band 1.7 nm off its centre, per nm
    expect(measured(scale.collimated).standardUncertainty).toBeCloseTo(Math.hypot(plain, slope * 0.05), 3);
    const level = lineInBeam(band, 656.9, [], { draws: 1000, seed: 3, level: 0.02 });
    expect(measured(level.collimated).standardUncertainty).toBeCloseTo(Math.hypot(0.004, 0.018), 3);
    const warm = lineInBeam(band, 658.6, [], {
      draws: 1000,
      seed: 3,
      temperature: { differenceK: 20, nmPerK: 0.02 },
    });
    const cold = lineInBeam(band, 658.6, [], {
      draws: 1000,
      seed: 3,
      temperature: { differenceK: -20, nmPerK: 0.02 },
    });
    expect(measured(warm.collimated).value).toBeGreaterThan(measured(cold.collimated).value);
  });

  it('same seed, same numbers', () => {
    expect(lineInBeam(band, 656.3, [4], { seed: 9, draws: 100 })).toEqual(
      lineInBeam(band, 656.3, [4], { seed: 9, draws: 100 }),
    );
  });

  it('says why where there is no number', () => {
    expect(lineInBeam(band, 500.7, [4], { seed: 1 }).collimated).toEqual({
      absent: 'the line lies outside the scan, 630.00 to 730.00 nm',
    });
    const short = { ...band, wavelengthNm: scan.map((x) => x - 70) };
    const cut = lineInBeam(short, 656.3, [1], { seed: 1, draws: 50 });
    expect(cut.inBeam[0]!.transmittance).toHaveProperty('absent');
  });

  it.each([
    [[0], {}],
    [[4], { share: 1 }],
    [[4], { effectiveIndex: [2, 1] as const }],
    [[4], { beam: { centralObstruction: 1 } }],
  ])('refuses %j %j', (fNumbers, options) => {
    expect(() => lineInBeam(band, 656.3, fNumbers, { seed: 1, ...options })).toThrow(RangeError);
  });
});

describe('fastestRatio', () => {
  const fastest = (ratios: number[], values: number[], level: number): number =>
    fastestRatio(ratios, (k) => values[k]!, level);

  it('is straight in 1 / N^2, and says when the share is lost from the start', () => {
    expect(fastest([10, 1], [1, 0], 0.5)).toBeCloseTo(1 / Math.sqrt(0.505), 12);
    expect(fastest([10, 5, 2], [1, 1, 1], 0.9)).toBe(2);
    expect(fastest([10, 5], [0.5, 0.9], 0.9)).toBe(Number.POSITIVE_INFINITY);
  });
});
