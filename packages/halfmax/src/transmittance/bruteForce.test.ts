import { describe, expect, it } from 'vitest';
import { type Detector, type FrameEntry, reduceFrames } from '../frames/index.js';
import { type RandomStream, randomStream } from '../numeric/index.js';
import { transmittanceCurve } from './index.js';

const pixels = 200;
const top = 100;
const detector: Detector = {
  pixels,
  saturationCounts: 64000,
  wavelengthStartNm: null,
  wavelengthEndNm: null,
  linearity: null,
};
const gain = 0.6;
const readNoise = 8;
const exposureMs = 50;
const minute = 60_000;
const open = (i: number): number => 40_000 * (1 - 0.3 * ((i - 110) / 100) ** 2);
const filter = (i: number): number => 0.9 / (1 + ((i - top) / 9) ** 6);
const dark = (i: number): number => 700 + 20 * Math.sin(2.3 * i);

interface Bench {
  /** Random walk of the lamp, relative, standard deviation per root of a minute. */
  walk: number;
  /** Steady drift of the lamp, relative per minute. */
  drift: number;
  darkFrames: number;
  frames: number;
  /** Open (o) and filtered (f) scans in order, five minutes apart. */
  scans: string;
}

function takeSession(bench: Bench, random: RandomStream): FrameEntry[] {
  const frame = (light: (i: number) => number): Float64Array =>
    Float64Array.from({ length: pixels }, (_, i) => {
      const counts = light(i);
      return Math.round(dark(i) + counts + random.normal() * Math.sqrt(readNoise ** 2 + gain * counts));
    });
  const entry = (
    index: number,
    role: FrameEntry['role'],
    takenAtMs: number | null,
    frames: number,
    light: (i: number) => number,
  ): FrameEntry => ({
    index,
    role,
    exposureMs,
    lamp: null,
    filter: role === 'filtered' ? 'f' : null,
    takenAtMs,
    scans: Array.from({ length: frames }, (_, k) => ({
      file: `${index}-${k}`,
      column: '',
      counts: frame(light),
      wavelengthNm: null,
    })),
  });
  const entries = [entry(0, 'dark', null, bench.darkFrames, () => 0)];
  let level = 1;
  for (const kind of bench.scans) {
    const now = level;
    const role = kind === 'o' ? 'open' : 'filtered';
    const light = (i: number): number => now * open(i) * (kind === 'o' ? 1 : filter(i));
    entries.push(entry(entries.length, role, (entries.length - 1) * 5 * minute, bench.frames, light));
    level += 5 * bench.drift + Math.sqrt(5) * bench.walk * random.normal();
  }
  return entries;
}

/** Actual scatter of T in repeated sessions about the truth over the uncertainty stated, root mean squares of both. */
function ratio(bench: Bench, pixel: number, repeats = 200): number {
  let actual = 0;
  let stated = 0;
  for (let seed = 0; seed < repeats; seed++) {
    const { spectra, noise } = reduceFrames(takeSession(bench, randomStream(9000 + seed)), detector);
    const curve = transmittanceCurve(
      spectra.filter((spectrum) => spectrum.role === 'filtered').slice(0, 1),
      spectra.filter((spectrum) => spectrum.role === 'open'),
      { noise },
    );
    actual += (curve.transmittance[pixel]! - filter(pixel)) ** 2;
    stated += curve.standardUncertainty[pixel]! ** 2;
  }
  return Math.sqrt(actual / stated);
}

// 200 repeats: the actual scatter is known to 5 %; a drift told by few scans adds up to 7 % to that of the stated one
describe('the uncertainty of the transmittance against the scatter of 200 simulated sessions', () => {
  const bench: Bench = { walk: 0, drift: 0, darkFrames: 10, frames: 4, scans: 'ofo' };

  const within = (made: Bench, pixel: number): void => {
    const found = ratio(made, pixel);
    expect(found).toBeGreaterThan(0.85);
    expect(found).toBeLessThan(1.15);
  };

  it('noise alone, top of the band', () => within(bench, top));

  it.each([
    ['filtered scan nearer to one of the open scans', { ...bench, walk: 0.002, scans: 'offfo' }, top],
    ['noise alone, foot of the band', bench, 20],
    ['few darks, foot of the band', { ...bench, darkFrames: 3, frames: 12 }, 20],
    ['random walk of the lamp, two open scans', { ...bench, walk: 0.002 }, top],
    [
      'random walk about a steady drift, five open scans',
      { ...bench, walk: 0.002, drift: 0.001, scans: 'ofofofofo' },
      top,
    ],
    ['weak random walk, noise besides', { ...bench, walk: 0.0006, scans: 'ofofofo' }, top],
  ])('%s', { tags: ['long'] }, (_, made, pixel) => within(made, pixel));
});
