import { describe, expect, it } from 'vitest';
import { darkAt } from './darkAt.js';
import { reduceFrames } from './index.js';
import { stackDarks } from './stackDarks.js';
import type { Detector, FrameEntry, FrameRole } from './types.js';

const detector: Detector = {
  pixels: 40,
  saturationCounts: 64000,
  wavelengthStartNm: null,
  wavelengthEndNm: null,
  linearity: null,
};
const entry = (role: FrameRole, exposureMs: number, counts: (pixel: number) => number): FrameEntry => ({
  index: 0,
  role,
  exposureMs,
  lamp: null,
  filter: null,
  takenAtMs: null,
  scans: Array.from({ length: 4 }, (_, k) => ({
    file: `${role}-${exposureMs}-${k}.csv`,
    column: '',
    wavelengthNm: null,
    counts: Float64Array.from({ length: 40 }, (_, i) => counts(i) + ((i * 7 + k * 3) % 5) - 2),
  })),
});
const dark = (exposureMs: number, offset: number, perMs: number): FrameEntry =>
  entry('dark', exposureMs, (i) => offset + i + perMs * exposureMs);
const sharedAt = (darks: FrameEntry[], exposureMs: number): Float64Array | null =>
  darkAt(stackDarks(darks, detector), exposureMs, 4).shared;

describe('what is not known of a dark', () => {
  it('is nothing at the exposure of a dark and between two', () => {
    expect(sharedAt([dark(100, 600, 1)], 100)).toBeNull();
    expect(sharedAt([dark(50, 600, 1), dark(200, 600, 1)], 100)).toBeNull();
  });

  it('is all of a single dark: rectangular from offset alone to dark current alone', () => {
    for (const exposureMs of [20, 400]) {
      const stack = stackDarks([dark(100, 600, 1)], detector)[0]!;
      const shared = sharedAt([dark(100, 600, 1)], exposureMs)!;
      for (const i of [0, 13, 39]) {
        // root mean square of a number that is anywhere between 0 and the whole way: way / sqrt(3)
        const way = stack.counts[i]! * (exposureMs / 100) - stack.counts[i]!;
        expect(shared[i]! / (way / Math.sqrt(3))).toBeCloseTo(1, 12);
      }
    }
  });

  it('covers both ends: offset alone, and dark current alone', () => {
    for (const [offset, perMs] of [
      [700, 0],
      [0, 7],
    ] as const) {
      const shared = sharedAt([dark(100, offset, perMs)], 300)!;
      // the pattern of the pixels, i, is offset here
      const missed = perMs * 200;
      expect(missed / shared[20]!).toBeLessThan(Math.sqrt(3));
    }
  });

  it('is the step from the nearest dark where two are carried on', () => {
    const shared = sharedAt([dark(50, 600, 1), dark(100, 600, 1)], 200)!;
    expect(shared[5]!).toBeCloseTo(100 / Math.sqrt(3), 6);
    expect(sharedAt([dark(50, 600, 1), dark(100, 600, 1)], 25)![5]!).toBeCloseTo(-25 / Math.sqrt(3), 6);
  });

  it('goes with the spectra of that exposure, and with no other', () => {
    const open = (exposureMs: number): FrameEntry =>
      entry('open', exposureMs, (i) => 620 + i + 200 * exposureMs * Math.exp(-0.01 * (i - 20) ** 2));
    const { spectra } = reduceFrames([dark(100, 600, 0.2), open(100), open(200)], detector);
    expect(spectra[0]!.darkShared).toBeUndefined();
    expect(spectra[1]!.darkShared![20]! / (640 / Math.sqrt(3))).toBeCloseTo(1, 2);
  });
});
