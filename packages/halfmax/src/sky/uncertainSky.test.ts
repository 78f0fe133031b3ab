import { describe, expect, it } from 'vitest';
import { isAbsent, type Quantity } from '../metrics/index.js';
import { filterOnSky } from './filterOnSky.js';
import { mixSkies } from './mixSkies.js';
import { siteSky } from './siteSky.js';
import { skyGrid } from './skyGrid.js';
import { skyNoiseSpread } from './skyNoiseSpread.js';
import type { Site, Sky } from './types.js';
import { detectedParts, strengthTrials, type UncertainSky } from './uncertainSky.js';
import { vMagnitude } from './vMagnitude.js';

const exact = { skyBrightnessUncertainty: 0, airglowRelativeUncertainty: 0 };
const moon = { illuminatedFraction: 0.6, altitudeDeg: 40, separationDeg: 70, relativeUncertainty: 0 };
const lamps = [
  { source: 'high-pressure sodium', share: 0.6, uncertainty: 0 },
  { source: 'LED 4000 K', share: 0.4, uncertainty: 0 },
];
/** The sky of trial k, put together from its parts. */
const skyOfTrial = ({ trials }: UncertainSky, k: number): Sky =>
  mixSkies(trials.map(({ sky, factors }) => ({ sky, factor: factors[k]! })));
const moments = (values: readonly number[]): [number, number] => {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return [mean, Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1))];
};

describe('strengthTrials', () => {
  it('has mean 1 and the standard deviation asked for', () => {
    const [mean, deviation] = moments([...strengthTrials(0.3, { seed: 5, draws: 40_000 }, 2)]);
    expect(mean).toBeCloseTo(1, 2);
    expect(deviation).toBeCloseTo(0.3, 2);
  });

  it('is exactly 1 where the strength is exact, and refuses less than that', () => {
    expect([...strengthTrials(0, { draws: 3 }, 0)]).toEqual([1, 1, 1]);
    expect(() => strengthTrials(-0.1, {}, 0)).toThrow('0 or more');
  });
});

describe('trials of a site', () => {
  const draws = 60;

  it('are the stated sky where all is exact', () => {
    const site = siteSky({ skyBrightness: 19.5, ...exact, lightSources: lamps, moon }, { draws });
    for (const { factors } of site.trials) for (const factor of factors) expect(factor).toBeCloseTo(1, 12);
    const sum = skyOfTrial(site, 7);
    sum.photons.forEach((value, i) => {
      expect(value / site.sky.photons[i]!).toBeCloseTo(1, 12);
    });
  });

  it.each([17, 20.5, 21.75, 22.5])('scatter about a brightness of %d as stated', (skyBrightness) => {
    const stated: Site = { ...exact, skyBrightness, skyBrightnessUncertainty: 0.1, lightSources: lamps };
    const site = siteSky(stated, { seed: 3, draws: 1000 });
    const magnitudes = Array.from({ length: 400 }, (_, k) => vMagnitude(skyOfTrial(site, k)));
    const [mean, deviation] = moments(magnitudes);
    expect(mean).toBeCloseTo(skyBrightness, 1);
    expect(deviation / 0.1).toBeGreaterThan(0.9);
    expect(deviation / 0.1).toBeLessThan(1.1);
  });

  it('keep the brightness while airglow and lamps change places', () => {
    const open = lamps.map((lamp) => ({ ...lamp, uncertainty: lamp.share / 2 }));
    const stated: Site = { ...exact, skyBrightness: 20, airglowRelativeUncertainty: 0.4, lightSources: open };
    const site = siteSky(stated, { seed: 9, draws });
    const green = (sky: Sky): number => sky.photons[skyGrid.indexOf(500)]!;
    const greens = Array.from({ length: draws }, (_, k) => {
      expect(vMagnitude(skyOfTrial(site, k))).toBeCloseTo(20, 9);
      return green(skyOfTrial(site, k)) / green(site.sky);
    });
    expect(moments(greens)[1]).toBeGreaterThan(0.02);
  });

  it('let the moon alone move where it alone is open', () => {
    const stated: Site = { ...exact, skyBrightness: 21, lightSources: lamps, moon };
    const site = siteSky({ ...stated, moon: { ...moon, relativeUncertainty: 0.15 } }, { draws: 4000 });
    const open = site.trials.filter(({ factors }) => factors.some((factor) => Math.abs(factor - 1) > 1e-9));
    expect(open).toHaveLength(1);
    expect(moments([...open[0]!.factors])[1]).toBeCloseTo(0.15, 2);
  });

  it('are the same for the same seed and others for another', () => {
    const at = (seed: number): number =>
      siteSky({ skyBrightness: 20 }, { seed, draws }).trials[0]!.factors[5]!;
    expect(at(4)).toBe(at(4));
    expect(at(4)).not.toBe(at(5));
  });
});

describe('hours under a sky and a target that are not known exactly', () => {
  const flat: Sky = { wavelengthNm: skyGrid, photons: new Float64Array(skyGrid.length).fill(0.5), lines: [] };
  const wavelengthNm = Float64Array.from({ length: 2001 }, (_, i) => 400 + 0.16 * i);
  const curve = {
    wavelengthNm,
    transmittance: wavelengthNm.map((at) => (Math.abs(at - 656.28) < 3.2 ? 1 : 0)),
    standardUncertainty: new Float64Array(2001),
  };
  const draws = 4000;
  const known = (number: Quantity): { value: number; relative: number } => {
    if (isAbsent(number)) throw new Error(number.absent);
    return { value: number.value, relative: number.standardUncertainty / number.value };
  };
  const lineUnder = (sky: Sky | UncertainSky, strength?: Float64Array) => {
    const target = {
      name: 'H-alpha',
      wavelengthNm: 656.28,
      brightness: { value: 0.01, unit: 'rayleigh' },
    } as const;
    const camera = { fNumber: 5, pixelUm: 3.76, quantumEfficiency: 0.8, readNoise: 0, darkCurrent: 0 };
    const options = { camera, effectiveIndex: 2, seed: 1, draws };
    const targets = [{ ...target, ...(strength === undefined ? {} : { strength }) }];
    const found = filterOnSky(curve, targets, sky, options);
    if (isAbsent(found)) throw new Error(found.absent);
    return found.lines[0]!;
  };
  const sky: UncertainSky = {
    sky: flat,
    trials: [{ sky: flat, factors: strengthTrials(0.12, { seed: 2, draws }, 0) }],
  };

  // Closed form, where only the sky counts: hours go with sky / line^2.
  it('hours go with the sky and with the inverse square of the line', () => {
    expect(known(lineUnder(flat).hours).relative).toBeLessThan(1e-9);
    expect(known(lineUnder(sky).hours).relative).toBeCloseTo(0.12, 2);
    const strength = strengthTrials(0.05, { seed: 2, draws }, 1);
    expect(known(lineUnder(sky, strength).hours).relative).toBeCloseTo(Math.hypot(0.12, 0.1), 2);
  });

  it('gain and hours under the same sky do not feel the strength of a sky of one colour', () => {
    const line = lineUnder(sky, strengthTrials(0.05, { seed: 2, draws }, 1));
    expect(known(line.gain).relative).toBeLessThan(1e-9);
    expect(known(line.hoursSameSky).relative).toBeLessThan(1e-9);
    expect(known(line.hoursSameSky).value / known(lineUnder(flat).hours).value).toBeCloseTo(1, 9);
  });

  it('the gain feels a part that the filter keeps out', () => {
    const half: Sky = { ...flat, photons: flat.photons.map((value) => value / 2) };
    const split = (upTo: number, inside: boolean): Sky => ({
      ...half,
      photons: half.photons.map((value, i) => (skyGrid[i]! < upTo === inside ? 2 * value : 0)),
    });
    const parts = [
      { sky: split(600, true), factors: strengthTrials(0.3, { seed: 7, draws }, 0) },
      { sky: split(600, false), factors: new Float64Array(draws).fill(1) },
    ];
    const mixed: UncertainSky = { sky: flat, trials: parts };
    // Two thirds of the open sky are drawn, nothing behind the filter: gain goes with the root of the open sky.
    const { relative } = known(lineUnder(mixed).gain);
    const roots = moments([...parts[0]!.factors].map((factor) => Math.sqrt((2 * factor + 1) / 3)));
    expect(relative).toBeCloseTo(roots[1] / roots[0], 2);
    const detected = detectedParts(mixed, 0.8);
    expect(skyNoiseSpread(curve, detected, { fromNm: 400, toNm: 700 })).toBeCloseTo(relative, 2);
  });
});
