import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { findCeiling } from './findCeiling.js';
import { reduceFrames } from './index.js';
import type { Detector, FrameEntry, FrameRole } from './types.js';

const pixels = 600;
const random = randomStream(11);

/** An entry of frames with noise that grows with the light; `read` is what the converter makes of it. */
function entry(
  index: number,
  role: FrameRole,
  exposureMs: number,
  light: (pixel: number) => number,
  read: (counts: number, pixel: number) => number,
  frames = 6,
): FrameEntry {
  return {
    index,
    role,
    exposureMs,
    lamp: role === 'lamp' ? 'Ne' : null,
    filter: role === 'filtered' ? 'f1' : null,
    takenAtMs: null,
    scans: Array.from({ length: frames }, (_, k) => ({
      file: `${role}-${index}-${k}.csv`,
      column: '',
      wavelengthNm: null,
      counts: Float64Array.from({ length: pixels }, (_, i) => {
        const counts = light(i) * exposureMs;
        return read(Math.round(700 + counts + random.normal() * Math.sqrt(36 + 0.8 * counts)), i);
      }),
    })),
  };
}

const halogen = (i: number): number => 40 + 800 * Math.exp(-0.5 * ((i - 330) / 120) ** 2);
const dark = (): number => 0;
const clippedAt =
  (level: number) =>
  (counts: number): number =>
    Math.min(level, counts);
const session = (read: (counts: number, pixel: number) => number): FrameEntry[] => [
  entry(0, 'dark', 20, dark, read),
  entry(1, 'dark', 100, dark, read),
  entry(2, 'open', 20, halogen, read),
  entry(3, 'open', 100, halogen, read),
];
const detector: Detector = {
  pixels,
  saturationCounts: 1e6,
  wavelengthStartNm: null,
  wavelengthEndNm: null,
  linearity: null,
};

describe('a saturation level that is stated far too high', () => {
  it('is corrected where frames stand at one count over many pixels, and said', () => {
    const entries = session(clippedAt(65535));
    expect(findCeiling(entries, 1e6)).toMatchObject({ counts: 65535, frames: 6, file: 'open-3-0.csv' });
    const { spectra, warnings } = reduceFrames(entries, detector);
    expect(warnings.map(({ what }) => what).join()).toMatch(
      /exactly 65535 counts in 6 frames \(the first is open-3-0\.csv\).* 1000000 .*65535 is used/,
    );
    // 64 835 counts of light in 100 ms: 648.35 a ms, by the shape of the lamp within 89 pixels of its top
    for (let i = 0; i < pixels; i++) {
      if (halogen(i) > 655) expect(spectra[1]!.masked[i], `pixel ${i}`).toBe(1);
      if (halogen(i) < 600) expect(spectra[1]!.masked[i], `pixel ${i}`).toBe(0);
    }
    expect(spectra[0]!.masked.every((value) => value === 0)).toBe(true);
  });

  it('is found in a single frame', () => {
    const read = clippedAt(4095);
    const one = entry(0, 'open', 6, halogen, read, 1);
    expect(findCeiling([one], 65535)).toMatchObject({ counts: 4095, frames: 1 });
  });

  it('is found by falling rates where every pixel is cut off at a level of its own', () => {
    const entries = session((counts, i) => Math.min(counts, 62000 + 700 * (i % 4)));
    expect(findCeiling(entries, 1e6)).toBeNull();
    const { spectra, warnings } = reduceFrames(entries, detector);
    expect(warnings.map(({ what }) => what).join()).toMatch(/saturates softly/);
    for (let i = 0; i < pixels; i++) {
      if (halogen(i) > 680) expect(spectra[1]!.masked[i], `pixel ${i}`).toBe(1);
    }
  });

  it('is left alone where nothing is cut off: 40 sessions with noise, and a smooth top without', () => {
    for (let k = 0; k < 40; k++) {
      const faint = (i: number): number => (0.2 + (k % 5)) * halogen(i) * 0.01;
      expect(findCeiling([entry(0, 'open', 100, faint, (counts) => counts)], 65535)).toBeNull();
    }
    const smooth = Float64Array.from({ length: pixels }, (_, i) =>
      Math.round(30000 - 0.01 * (i - 300.3) ** 2),
    );
    const scans = [{ file: 'a', column: '', wavelengthNm: null, counts: smooth }];
    const one = { ...entry(0, 'open', 100, halogen, (counts) => counts, 1), scans };
    expect(findCeiling([one], 65535)).toBeNull();
    expect(findCeiling(session(clippedAt(64000)), 64000)).toBeNull();
  });

  it('leaves non-linearity of 2 % far below the limit alone', () => {
    const bent = (counts: number): number => Math.round(700 + (counts - 700) * (1 - 2.4e-7 * counts));
    const { warnings } = reduceFrames(
      session((counts) => bent(counts)),
      detector,
    );
    expect(warnings).toEqual([]);
  });
});

describe('exposures that do not belong together', () => {
  const asIs = (counts: number): number => counts;
  const stated = { ...detector, saturationCounts: 65535 };
  const darks = session(asIs).slice(0, 2);
  // taken with 50 ms, written down as 100
  const wrong = (role: FrameRole, light: (i: number) => number): FrameEntry[] => [
    ...darks,
    entry(2, role, 20, light, asIs),
    { ...entry(3, role, 50, light, asIs), exposureMs: 100 },
  ];

  it('leave an open scan out', () => {
    const { spectra, warnings } = reduceFrames(wrong('open', halogen), stated);
    expect(warnings.map(({ what }) => what)).toEqual([
      expect.stringMatching(/100 ms is (49|50|51) % below that at 20 ms: .*the longer exposure is left out$/),
    ]);
    expect(spectra.map((spectrum) => spectrum.entry)).toEqual([2]);
  });

  it('leave a filtered scan out where both show light', () => {
    const band = (i: number): number => 600 * Math.exp(-0.5 * ((i - 300) / 8) ** 2);
    const { spectra, warnings } = reduceFrames(wrong('filtered', band), stated);
    expect(warnings.map(({ what }) => what)).toEqual([
      expect.stringMatching(/(49|50|51) % below .*the longer is left out where both show light$/),
    ]);
    expect([spectra[0]!.masked[300], spectra[1]!.masked[300]]).toEqual([0, 1]);
    expect(spectra[1]!.masked[100]).toBe(0);
  });
});
