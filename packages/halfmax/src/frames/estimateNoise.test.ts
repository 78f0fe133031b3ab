import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { estimateNoise } from './estimateNoise.js';
import type { FrameGroup } from './levelSamples.js';

const pixels = 512;
const gain = 0.79;
const readVariance = 49;

/** Frames of a smooth spectrum from 0 to `top` counts with the noise of the model, the level wandering a little. */
function group(seed: number, frames: number, top = 50000, lines = false): FrameGroup {
  const random = randomStream(seed);
  return {
    frames: Array.from({ length: frames }, (_, k) =>
      Float64Array.from({ length: pixels }, (_, i) => {
        const level = top * Math.sin((Math.PI * i) / pixels) ** 2 * (1 + 0.01 * k);
        return level + random.normal() * Math.sqrt(readVariance + gain * level);
      }),
    ),
    excessVariance: new Float64Array(pixels),
    smooth: !lines,
    lines,
  };
}

describe('estimateNoise', () => {
  it.each([2, 3, 8])('recovers the gain within its own uncertainty from entries of %i frames', (frames) => {
    let squares = 0;
    const runs = 60;
    for (let seed = 0; seed < runs; seed++) {
      const found = estimateNoise([group(seed, frames), group(seed + 1000, frames, 5000)], []);
      squares += ((found.gain - gain) / found.gainUncertainty) ** 2;
      expect(found.method).toMatch(/between the frames/);
    }
    // chi-squared of 60 runs over 60: standard deviation 0.18; the stated uncertainty may be too wide, not too narrow
    expect(squares / runs).toBeLessThan(1.6);
    expect(squares / runs).toBeGreaterThan(0.3);
  });

  it('recovers the read variance with the help of darks', () => {
    const found = estimateNoise(
      [group(1, 8)],
      [{ variance: readVariance * 1.01, degreesOfFreedom: 9 * pixels }],
    );
    // relative uncertainty of the dark variance sqrt(2 / (9 x 512)) = 2 %
    expect(Math.abs(found.readVariance / readVariance - 1)).toBeLessThan(0.06);
  });

  it('is not misled by particles and by unstable pixels', () => {
    const clean = group(2, 6);
    const plain = estimateNoise([clean], []);
    const struck = clean.frames.map((frame) => frame.slice());
    for (let i = 7; i < pixels; i += 40) struck[i % 6]![i] = struck[i % 6]![i]! + 3000;
    const found = estimateNoise([{ ...clean, frames: struck }], []);
    expect(Math.abs(found.gain - plain.gain)).toBeLessThan(2 * plain.gainUncertainty);
  });

  it('says how it was found', () => {
    expect(estimateNoise([group(3, 4, 50000, true)], []).method).toMatch(/lamp entries/);
    expect(estimateNoise([group(3, 1)], []).method).toMatch(/second differences/);
    expect(estimateNoise([group(3, 1, 50000, true)], []).method).toMatch(/^assumed/);
    expect(estimateNoise([], []).method).toMatch(/^assumed/);
  });

  it('finds no noise where there is none, but never less than the rounding', () => {
    const still: FrameGroup = {
      ...group(4, 1),
      frames: [new Float64Array(pixels).fill(500), new Float64Array(pixels).fill(500)],
    };
    expect(estimateNoise([still], [], 1 / 12)).toMatchObject({ readVariance: 1 / 12, gain: 0 });
  });

  it('takes the second differences for what they are: within a tenth for a smooth spectrum', () => {
    const found = estimateNoise([group(5, 1), group(6, 1), group(7, 1)], []);
    expect(Math.abs(found.gain / gain - 1)).toBeLessThan(0.1 + 3 * (found.gainUncertainty / gain));
  });
});
