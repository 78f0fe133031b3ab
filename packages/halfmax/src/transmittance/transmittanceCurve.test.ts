import { describe, expect, it } from 'vitest';
import type { CleanSpectrum } from '../frames/index.js';
import { randomStream } from '../numeric/index.js';
import { type TransmittanceCurve, transmittanceCurve } from './index.js';

const pixels = 400;
const shape = (i: number): number => 50 + 300 * Math.exp(-0.5 * ((i - 220) / 120) ** 2);
const filter = (i: number): number => 0.92 / (1 + ((i - 200) / 9) ** 6) + 1e-3;
const minute = 60_000;
const start = Date.UTC(2024, 2, 1, 20, 0, 0);

interface Made {
  role?: 'open' | 'filtered';
  entry?: number;
  atMinutes?: number | null;
  exposureMs?: number;
  frames?: number;
  /** Counts per ms. */
  light: (pixel: number) => number;
  /** Standard deviation of the mean as a share of the photon noise; 0 for none. */
  noise?: number;
  darkNoise?: number;
  clipAt?: number;
  seed?: number;
}

function made(one: Made): CleanSpectrum {
  const random = randomStream(one.seed ?? 1);
  const exposureMs = one.exposureMs ?? 100;
  const frames = one.frames ?? 10;
  const role = one.role ?? 'open';
  const truth = Float64Array.from({ length: pixels }, (_, i) => one.light(i) * exposureMs);
  const noise = truth.map((counts) => (one.noise ?? 0) * Math.sqrt((36 + 0.8 * counts) / frames));
  const masked = Uint8Array.from(truth, (counts) => (counts > (one.clipAt ?? 64000) ? 1 : 0));
  return {
    entry: one.entry ?? 0,
    role,
    lamp: null,
    filter: role === 'filtered' ? 'f1' : null,
    takenAtMs: one.atMinutes === null ? null : start + (one.atMinutes ?? 0) * minute,
    exposureMs,
    frames,
    counts: truth.map((counts, i) => (masked[i] === 1 ? 0 : counts + noise[i]! * random.normal())),
    noise,
    darkNoise: new Float64Array(pixels).fill(one.darkNoise ?? 0),
    masked,
    wavelengthNm: null,
  };
}

const open = (atMinutes: number | null, level = 1, tilt = 0, more: Partial<Made> = {}): CleanSpectrum =>
  made({
    atMinutes,
    light: (i) => shape(i) * (level + tilt * ((2 * i) / (pixels - 1) - 1)),
    ...more,
  });
const filtered = (atMinutes: number | null, level = 1, more: Partial<Made> = {}): CleanSpectrum =>
  made({ role: 'filtered', atMinutes, light: (i) => shape(i) * filter(i) * level, ...more });

function expectTruth(curve: TransmittanceCurve, bound = 1e-9): void {
  for (let i = 0; i < pixels; i++) {
    expect(curve.masked[i]).toBe(0);
    expect(Math.abs(curve.transmittance[i]! - filter(i))).toBeLessThan(bound);
  }
}

describe('transmittanceCurve', () => {
  it('is the ratio of the counts, whatever the exposures', () => {
    expectTruth(transmittanceCurve([filtered(5, 1, { exposureMs: 170 })], [open(0), open(10)]));
  });

  it('follows a lamp that drifts on a straight line in time, colour and all', () => {
    // from level 1 to 1.06 and tilt 0 to 0.02 within 20 minutes; the filtered scan after 5
    const atFive = filtered(5, 1, {
      light: (i) => shape(i) * filter(i) * (1.015 + 0.005 * ((2 * i) / (pixels - 1) - 1)),
    });
    const curve = transmittanceCurve([atFive], [open(0), open(20, 1.06, 0.02)]);
    expectTruth(curve);
    expect(curve.drift.interpolated).toBe(true);
    expect(curve.drift.maxRelative).toBeCloseTo(0.06, 2);
    expect(curve.warnings).toEqual([
      {
        where: 'f1',
        what: expect.stringMatching(
          /^the open beam changed by 6(\.\d)? % between 20:00:00 UTC and 20:20:00 UTC, around the scan of 20:05:00/,
        ),
      },
    ]);
  });

  it('counts the change between two scans as a random walk: zero at the scans, half of it in the middle', () => {
    const scans = [open(0, 1), open(20, 1.012)];
    const peak = (curve: TransmittanceCurve): number =>
      curve.components.drift[200]! / curve.transmittance[200]!;
    expect(peak(transmittanceCurve([filtered(0)], scans))).toBeCloseTo(0, 12);
    // relative to the mean level, 1.006
    expect(peak(transmittanceCurve([filtered(10, 1.006)], scans))).toBeCloseTo(0.012 / 1.006 / 2, 9);
    // a quarter of the way: sqrt(1/4 x 3/4)
    expect(peak(transmittanceCurve([filtered(5, 1.003)], scans))).toBeCloseTo(
      (0.012 / 1.006) * Math.sqrt(3 / 16),
      9,
    );
    expect(transmittanceCurve([filtered(10, 1.006)], scans).warnings).toEqual([]);
  });

  it('takes a steady drift out of the walk where there are three scans or more', () => {
    const drift = (levels: readonly number[]): number => {
      const scans = levels.map((level, k) => open(20 * k, level, 0, { entry: k }));
      const curve = transmittanceCurve([filtered(10, (levels[0]! + levels[1]!) / 2)], scans);
      return curve.components.drift[200]! / curve.transmittance[200]!;
    };
    expect(drift([1, 1.01, 1.02, 1.03])).toBeLessThan(1e-9);
    // changes 0.01, 0, 0.01, 0 of mean 0.005: three degrees of freedom, sqrt(4 x 0.005^2 / 3); half of it in the middle
    expect(drift([1, 1.01, 1.01, 1.02, 1.02])).toBeCloseTo(Math.sqrt(1e-4 / 3) / 2 / 1.012, 5);
  });

  it('falls back on the scans themselves where they have not one shape', () => {
    const bump = (share: number) => (i: number) => shape(i) * (1 + share * Math.sin(i / 6));
    const scans = [
      made({ atMinutes: 0, light: bump(0), noise: 0.01 }),
      made({ atMinutes: 20, light: bump(0.1), noise: 0.01 }),
    ];
    const middle = filtered(5, 1, { light: (i) => bump(0.025)(i) * filter(i) });
    const curve = transmittanceCurve([middle], scans);
    // noise of a hundredth of the photon noise: 1e-4 at the most
    expectTruth(curve, 3e-4);
  });

  it('is the ratio of sums, not the mean of ratios', () => {
    const list = [
      filtered(5, 1, { noise: 1, seed: 3 }),
      filtered(6, 1, { noise: 1, seed: 4, frames: 30, entry: 1 }),
    ];
    const scan = open(0);
    const curve = transmittanceCurve(list, [scan, open(10)]);
    for (let i = 0; i < pixels; i++) {
      const sum = 10 * list[0]!.counts[i]! + 30 * list[1]!.counts[i]!;
      expect(curve.transmittance[i]!).toBeCloseTo(sum / (40 * scan.counts[i]!), 9);
    }
  });

  it('takes the longest unclipped exposure in each pixel, with a margin of one', () => {
    const long = filtered(5, 1, { exposureMs: 1000 });
    const short = filtered(6, 1, { exposureMs: 100, entry: 1 });
    const curve = transmittanceCurve([short, long], [open(0), open(10)]);
    expectTruth(curve);
    for (let i = 1; i + 1 < pixels; i++) {
      const clipped = long.masked[i - 1]! + long.masked[i]! + long.masked[i + 1]! > 0;
      expect(curve.exposureMs[i]).toBe(clipped ? 100 : 1000);
    }
  });

  it('joins open entries of several exposures to scans', () => {
    const scans = [
      open(0, 1, 0, { exposureMs: 20 }),
      open(1, 1, 0, { exposureMs: 250, entry: 1 }),
      open(20, 1.02, 0, { exposureMs: 20, entry: 2 }),
      open(21, 1.02, 0, { exposureMs: 250, entry: 3 }),
    ];
    expect(scans[1]!.masked.some((value) => value === 1)).toBe(true);
    // scans at 0.5 and 20.5 minutes
    expectTruth(transmittanceCurve([filtered(10.5, 1.01)], scans));
  });

  it('has an uncertainty that covers the error, pixel by pixel', () => {
    let squares = 0;
    let values = 0;
    for (let seed = 0; seed < 40; seed++) {
      const curve = transmittanceCurve(
        [
          filtered(5, 1.01, { noise: 1, seed: 10 * seed + 500 }),
          filtered(15, 1.03, { noise: 1, seed: 10 * seed + 501, entry: 1 }),
        ],
        [0, 10, 20].map((time, k) =>
          open(time, 1 + 0.002 * time, 0, { noise: 1, seed: 10 * seed + k, entry: k }),
        ),
      );
      for (let i = 0; i < pixels; i++) {
        const u = Math.hypot(curve.components.filteredNoise[i]!, curve.components.openNoise[i]!);
        squares += ((curve.transmittance[i]! - filter(i)) / u) ** 2;
        values++;
        expect(curve.standardUncertainty[i]!).toBeCloseTo(
          Math.hypot(u, curve.components.darkNoise[i]!, curve.components.drift[i]!),
          12,
        );
      }
    }
    // 16 000 values: the root mean square scatters by 0.006; levels fitted from the same light add a little
    expect(Math.abs(Math.sqrt(squares / values) - 1)).toBeLessThan(0.03);
  });

  it('is less noisy with more open scans, by their root', () => {
    const scans = (n: number): CleanSpectrum[] =>
      Array.from({ length: n }, (_, k) => open(10 * k, 1, 0, { noise: 1, seed: k + 1, entry: k }));
    const two = transmittanceCurve([filtered(5)], scans(2)).components.openNoise[200]!;
    const eight = transmittanceCurve([filtered(5)], scans(8)).components.openNoise[200]!;
    expect(two / eight).toBeCloseTo(2, 1);
  });

  it('counts the dark of the same exposure once: (1 - T) u(D) / R, and apart from another exposure', () => {
    const d = { darkNoise: 5 };
    const same = transmittanceCurve([filtered(5, 1, d)], [open(0, 1, 0, d), open(10, 1, 0, d)]);
    const counts = 100 * shape(200);
    const t = filter(200);
    expect(same.components.darkNoise[200]!).toBeCloseTo(((1 - t) * 5) / counts, 12);
    const other = transmittanceCurve(
      [filtered(5, 1, { ...d, exposureMs: 150 })],
      [open(0, 1, 0, d), open(10, 1, 0, d)],
    );
    expect(other.components.darkNoise[200]!).toBeCloseTo(Math.hypot(5 / 150, (t * 5) / 100) / shape(200), 12);
    // repeated scans share their dark: no gain from repeats
    const twice = transmittanceCurve(
      [filtered(4, 1, d), filtered(6, 1, { ...d, entry: 1 })],
      [open(0, 1, 0, d), open(10, 1, 0, d)],
    );
    expect(twice.components.darkNoise[10]!).toBeCloseTo(same.components.darkNoise[10]!, 12);
  });

  it('gives no number where the open beam is weak', () => {
    const weak = (i: number): number => (i < 50 ? 0.1 : shape(i));
    const scans = [0, 10].map((time, k) =>
      made({ atMinutes: time, light: weak, noise: 1, seed: k, entry: k }),
    );
    const curve = transmittanceCurve([filtered(5, 1, { light: (i) => weak(i) * filter(i) })], scans);
    for (let i = 0; i < pixels; i++) expect(curve.masked[i]).toBe(i < 50 ? 1 : 0);
    expect(curve.transmittance[10]).toBe(0);
    const all = transmittanceCurve([filtered(5, 1, { light: (i) => weak(i) * filter(i) })], scans, {
      floorFactor: 1,
    });
    expect(all.masked.every((value) => value === 0)).toBe(true);
  });

  it('masks what is clipped in all exposures of either light', () => {
    const clippedOpen = transmittanceCurve(
      [filtered(5)],
      [open(0, 1, 0, { clipAt: 30000 }), open(10, 1, 0, { clipAt: 30000 })],
    );
    const clippedFilter = transmittanceCurve([filtered(5, 1, { clipAt: 20000 })], [open(0), open(10)]);
    for (let i = 0; i < pixels; i++) {
      expect(clippedOpen.masked[i]).toBe(100 * shape(i) > 30000 ? 1 : 0);
      expect(clippedFilter.masked[i]).toBe(100 * shape(i) * filter(i) > 20000 ? 1 : 0);
    }
  });

  it('says from which transmittance on it can tell light from none', () => {
    const scans = [open(0), open(10)];
    const curve = transmittanceCurve([filtered(5, 1, { noise: 1, darkNoise: 2 })], scans, {
      noise: { readVariance: 36 },
    });
    // three standard deviations of a mean of ten frames without light and of the dark, over the open counts
    expect(curve.floor[200]!).toBeCloseTo((3 * Math.hypot(6 / Math.sqrt(10), 2)) / (100 * shape(200)), 12);
    let above = 0;
    const runs = 40;
    for (let seed = 0; seed < runs; seed++) {
      const none = made({ role: 'filtered', atMinutes: 5, light: () => 0, noise: 1, seed });
      const blank = transmittanceCurve([none], scans);
      for (let i = 0; i < pixels; i++) if (blank.transmittance[i]! > blank.floor[i]!) above++;
    }
    // one-sided tail at 3 standard deviations: 0.00135, and 16 000 values scatter it by 0.0003
    expect(above / (runs * pixels)).toBeLessThan(0.0025);
    expect(above).toBeGreaterThan(5);
  });

  it('counts what a warm pixel has beyond the read noise in its floor', () => {
    const dim = filtered(5, 1, { noise: 1 });
    const noise = dim.noise.slice();
    // 30 counts more in one frame of ten
    noise[20] = Math.sqrt(noise[20]! ** 2 + 900 / 10);
    const curve = transmittanceCurve([{ ...dim, noise }], [open(0), open(10)], {
      noise: { readVariance: 36, gain: 0.8 },
    });
    const lowest = (variance: number, i: number): number => (3 * Math.sqrt(variance / 10)) / (100 * shape(i));
    // the counts themselves scatter about the light that made the noise: a little of it stays or is taken too much
    expect(curve.floor[20]! / lowest(936, 20)).toBeCloseTo(1, 1);
    expect(curve.floor[200]! / lowest(36, 200)).toBeLessThan(1.3);
  });

  it('reports how much repeated scans differ beyond noise', () => {
    const scans = [open(0), open(100)];
    const shaken = [1, 1.01, 0.99, 1.02, 0.98].map((level, k) =>
      filtered(10 + 10 * k, level, { noise: 1, seed: k + 5, entry: k }),
    );
    // standard deviation of the five levels
    expect(transmittanceCurve(shaken, scans).repeatScatter!.relative).toBeCloseTo(Math.sqrt(0.001 / 4), 3);
    expect(transmittanceCurve(shaken, scans).repeatScatter!.repeats).toBe(5);
    const still = [1, 1, 1, 1, 1].map((level, k) =>
      filtered(10 + 10 * k, level, { noise: 1, seed: k + 5, entry: k }),
    );
    expect(transmittanceCurve(still, scans).repeatScatter!.relative).toBeLessThan(5e-4);
    expect(transmittanceCurve([filtered(5)], scans).repeatScatter).toBeNull();
  });
});

describe('times', () => {
  it('missing: the mean of the open scans, half their spread as uncertainty, and a warning beyond the limit', () => {
    const curve = transmittanceCurve(
      [filtered(null, 1)],
      [open(null, 0.97), open(null, 1.03, 0, { entry: 1 })],
    );
    expectTruth(curve);
    expect(curve.components.drift[200]! / curve.transmittance[200]!).toBeCloseTo(0.03, 9);
    expect(curve.drift.interpolated).toBe(false);
    expect(curve.warnings[0]!.what).toMatch(
      /^the open scans differ by 6\.2 %, more than the 2 % that are let pass, and times are missing/,
    );
    const near = transmittanceCurve(
      [filtered(null, 1)],
      [open(null, 0.995), open(null, 1.005, 0, { entry: 1 })],
    );
    expect(near.warnings).toEqual([]);
  });

  it('outside the open scans: the nearest, said', () => {
    const curve = transmittanceCurve([filtered(30, 1.01)], [open(0, 1), open(10, 1.01)]);
    expectTruth(curve);
    expect(curve.warnings[0]!.what).toMatch(/20:30:00 UTC lies outside .* of 20:10:00 UTC, is used/);
    expect(curve.components.drift[200]).toBeGreaterThan(0.004);
  });

  it('one open scan: used, said', () => {
    const curve = transmittanceCurve([filtered(5)], [open(0)]);
    expectTruth(curve);
    expect(curve.warnings[0]!.what).toMatch(/one open scan only/);
  });
});

describe('properties', () => {
  const list = [
    filtered(4, 1.004, { noise: 1, seed: 31 }),
    filtered(6, 1.006, { noise: 1, seed: 32, entry: 1, exposureMs: 400 }),
    filtered(14, 1.014, { noise: 1, seed: 33, entry: 2 }),
  ];
  const scans = [0, 10, 20].map((time, k) =>
    open(time, 1 + 0.001 * time, 0, { noise: 1, seed: 40 + k, entry: 3 + k }),
  );

  it('order of the entries does not matter', () => {
    const one = transmittanceCurve(list, scans);
    const other = transmittanceCurve([...list].reverse(), [...scans].reverse());
    for (let i = 0; i < pixels; i++) {
      expect(other.transmittance[i]!).toBeCloseTo(one.transmittance[i]!, 12);
      expect(other.standardUncertainty[i]!).toBeCloseTo(one.standardUncertainty[i]!, 12);
    }
  });

  it('a common factor on all counts does not matter', () => {
    const times = (k: number) => (spectrum: CleanSpectrum) => ({
      ...spectrum,
      counts: spectrum.counts.map((value) => k * value),
      noise: spectrum.noise.map((value) => k * value),
      darkNoise: spectrum.darkNoise.map((value) => k * value),
    });
    const one = transmittanceCurve(list, scans);
    const other = transmittanceCurve(list.map(times(7)), scans.map(times(7)));
    for (let i = 0; i < pixels; i++) {
      expect(other.transmittance[i]!).toBeCloseTo(one.transmittance[i]!, 12);
      expect(other.standardUncertainty[i]!).toBeCloseTo(one.standardUncertainty[i]!, 12);
      expect(other.masked[i]).toBe(one.masked[i]);
    }
  });

  it('a lamp twice as bright in the filtered scan doubles the transmittance', () => {
    const one = transmittanceCurve([list[0]!], scans);
    const other = transmittanceCurve(
      [{ ...list[0]!, counts: list[0]!.counts.map((value) => 2 * value) }],
      scans,
    );
    for (let i = 0; i < pixels; i++)
      expect(other.transmittance[i]!).toBeCloseTo(2 * one.transmittance[i]!, 12);
  });

  it('leaves its input as it was', () => {
    const before = structuredClone([...list, ...scans]);
    transmittanceCurve(list, scans);
    expect([...list, ...scans]).toEqual(before);
  });
});

describe('arguments', () => {
  it('refuses what cannot be divided', () => {
    expect(() => transmittanceCurve([], [open(0)])).toThrow(
      'transmittanceCurve requires at least 1 filtered and 1 open',
    );
    expect(() => transmittanceCurve([filtered(0)], [])).toThrow(RangeError);
    expect(() => transmittanceCurve([open(0)], [open(0)])).toThrow(
      'requires filtered scans of one filter, got open',
    );
    expect(() => transmittanceCurve([filtered(0)], [filtered(0)])).toThrow('requires open scans');
    const short = { ...open(0), counts: new Float64Array(3) };
    expect(() => transmittanceCurve([filtered(0)], [short])).toThrow('requires equal lengths, got 400 and 3');
  });
});
