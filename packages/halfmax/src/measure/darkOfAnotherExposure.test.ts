import { describe, expect, it } from 'vitest';
import type { Dispersion } from '../calibration/index.js';
import { type FrameEntry, reduceFrames } from '../frames/index.js';
import { findBands, outOfBand } from '../metrics/index.js';
import { randomStream } from '../numeric/index.js';
import { transmittanceCurve } from '../transmittance/index.js';
import { assumptions } from './assumptions.js';
import { blockingLimits, curveOnScale } from './curveOnScale.js';
import { judgeClaims } from './judgeClaims.js';
import { levelInputs } from './levelInputs.js';

const pixels = 800;
const detector = {
  pixels,
  saturationCounts: 64000,
  wavelengthStartNm: null,
  wavelengthEndNm: null,
  linearity: null,
};
/** 600 to 760 nm in 800 pixels. */
const dispersion: Dispersion = {
  coefficients: [680, 80],
  covariance: [
    [0, 0],
    [0, 0],
  ],
  pivotPixel: 400,
  pixelScale: 400,
} as unknown as Dispersion;

/** A filter that blocks to 1e-5, with darks whose offset and growth are as given; the dark has a pattern. */
function session(darkExposures: readonly number[], offset: number, perMs: number): FrameEntry[] {
  const random = randomStream(5);
  const open = (i: number): number => 300 + 100 * Math.sin(i / 300);
  const filter = (i: number): number => 1e-5 + 0.9 * Math.exp(-(((i - 300) / 12) ** 4));
  const take = (role: FrameEntry['role'], exposureMs: number, light: (i: number) => number): FrameEntry => ({
    index: 0,
    role,
    exposureMs,
    lamp: null,
    filter: role === 'filtered' ? 'f1' : null,
    takenAtMs: null,
    scans: Array.from({ length: 8 }, (_, k) => ({
      file: `${role}-${exposureMs}-${k}`,
      column: '',
      wavelengthNm: null,
      counts: Float64Array.from({ length: pixels }, (_, i) => {
        const level = light(i) * exposureMs;
        const dark = offset + perMs * exposureMs * (1 + (i % 40 < 4 ? 0.5 : 0));
        return Math.round(dark + level + random.normal() * Math.sqrt(36 + 0.8 * level));
      }),
    })),
  });
  const entries = [
    ...darkExposures.map((exposureMs) => take('dark', exposureMs, () => 0)),
    take('open', 100, open),
    take('filtered', 150, (i) => open(i) * filter(i)),
    take('filtered', 3000, (i) => open(i) * Math.min(0.02, filter(i))),
  ];
  // the long exposure of the pass band would be clipped: its light is cut at a level above the saturation stated
  const last = entries.length - 1;
  const clipped = entries[last]!.scans.map((scan) => ({
    ...scan,
    counts: scan.counts.map((value, i) => (Math.abs(i - 300) < 30 ? 65000 : value)),
  }));
  entries[last] = { ...entries[last]!, scans: clipped };
  return entries.map((entry, index) => ({ ...entry, index }));
}

function measured(darkExposures: readonly number[], offset: number, perMs: number) {
  const frames = reduceFrames(session(darkExposures, offset, perMs), detector);
  const of = (role: string) => frames.spectra.filter((spectrum) => spectrum.role === role);
  const curve = transmittanceCurve(of('filtered'), of('open'), { noise: frames.noise });
  const scaled = curveOnScale(curve, dispersion);
  const bands = findBands(scaled.curve);
  const limits = blockingLimits(scaled, 0);
  return { scaled, bands, limits, blocking: outOfBand(scaled.curve, bands, limits) };
}

describe('blocking with darks of one exposure only', () => {
  // the dark grows by 1 count in a ms: 2900 counts from 100 to 3000 ms, 3e-3 of the open beam; 1e-3 is assumed stray light
  it('has no false leak and no density that light alone does not tell, where the dark grows', () => {
    const { blocking, bands, scaled, limits } = measured([100], 600, 1);
    expect(bands).toHaveLength(1);
    expect(scaled.curve.transmittance.some((t, i) => t > 2e-3 && scaled.curve.wavelengthNm[i]! > 700)).toBe(
      true,
    );
    expect(blocking.leaks).toEqual([]);
    expect(blocking.meanOpticalDensity).toMatchObject({
      atLeast: expect.any(Number),
      why: expect.stringMatching(/^the dark, taken at another exposure/),
    });
    const found = blocking.meanOpticalDensity as { atLeast: number };
    expect(found.atLeast).toBeLessThan(3);
    const report = {
      report: { asMeasured: {}, corrected: {} },
      spread: {},
    } as unknown as Parameters<typeof judgeClaims>[0][number];
    const claim = { opticalDensity: { atLeast: 3, fromNm: 690, toNm: 750 } };
    const seen = { curve: scaled.curve, bands, limits };
    const [[judged]] = judgeClaims([report], claim, seen, { kind: 'probability', probability: 0.95 }) as [
      [never],
    ];
    expect((judged as { verdict: string }).verdict).toBe('undecided');
  });

  it('would have had one without: the same curve with the noise alone', () => {
    const { scaled, bands, limits } = measured([100], 600, 1);
    const { shared, ...plain } = limits;
    expect(shared).toBeDefined();
    const noise = scaled.curve.standardUncertainty.map((u) => 3 * u);
    expect(outOfBand(scaled.curve, bands, { ...plain, floor: noise }).leaks.length).toBeGreaterThan(0);
  });

  it('is as good as ever with darks of all exposures', () => {
    const { blocking, limits } = measured([100, 150, 3000], 600, 1);
    expect(limits.shared).toBeUndefined();
    expect(blocking.leaks).toEqual([]);
    expect(blocking.meanOpticalDensity).toMatchObject({ atLeast: 3 });
  });
});

describe('the level of a band', () => {
  it('moves all points by what the dark leaves open, only where it does', () => {
    const none = { drift: 0, flicker: 0, repeat: 0, nonLinearity: 0 };
    const t = Float64Array.of(0, 0.5, 0.9);
    expect(levelInputs(none, t).inputs).toHaveLength(4);
    const { inputs, take, fill } = levelInputs({ ...none, darkLevel: 0.01 }, t);
    expect(inputs[4]).toEqual({
      source: 'darks of another exposure',
      distribution: { kind: 'normal', mean: 0, standardUncertainty: 0.01 },
    });
    take(Float64Array.of(0, 0, 0, 0, 0.02), 0);
    const out = new Float64Array(3);
    fill(out, 0, 3, new Float64Array(3));
    expect([...out].map((value) => value.toFixed(6))).toEqual(['0.020000', '0.520000', '0.920000']);
  });
});

describe('assumptions', () => {
  const inputs = (darkExposures: readonly number[]): string[] =>
    assumptions(
      { detector, entries: session(darkExposures, 600, 1) } as unknown as Parameters<typeof assumptions>[0],
      { flicker: null },
      { shifts: [] } as unknown as Parameters<typeof assumptions>[2],
    ).list.map(({ input }) => input);
  const ofDark = (list: readonly string[]): string[] =>
    list.filter((input) => / dark/.test(input) && !input.startsWith('drift of the dark'));

  it('name the drift of the dark, which no frame shows', () => {
    expect(inputs([100]).filter((input) => input.startsWith('drift of the dark'))).toHaveLength(1);
  });

  it('name the dark where darks of one exposure serve another, and where it is carried on', () => {
    expect(ofDark(inputs([100]))).toEqual([expect.stringMatching(/^share of the dark that may grow/)]);
    expect(ofDark(inputs([100, 150]))).toEqual([expect.stringMatching(/^error of the dark carried on/)]);
    expect(ofDark(inputs([100, 3000]))).toEqual([]);
  });
});
