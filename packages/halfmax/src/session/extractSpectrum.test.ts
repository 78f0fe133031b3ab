import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { extractSession } from './extractSession.js';
import { extractSpectrum } from './extractSpectrum.js';
import { findTrace } from './findTrace.js';
import type { SlitImage } from './slitImage.js';

const pixels = 600;
const rows = 40;
const sigma = 2.5;

/** A slit image: a spectrum along a straight line of rows with a Gaussian profile. */
function slit(
  spectrum: (p: number) => number,
  centre: (p: number) => number,
  dark: number,
  noise: number,
  seed: number,
): SlitImage {
  const random = randomStream(seed);
  const counts = new Float64Array(pixels * rows);
  for (let r = 0; r < rows; r++) {
    for (let p = 0; p < pixels; p++) {
      const profile = Math.exp(-0.5 * ((r - centre(p)) / sigma) ** 2);
      counts[r * pixels + p] = dark + spectrum(p) * profile + noise * random.normal();
    }
  }
  return { pixels, rows, counts };
}

const tilted = (p: number): number => 15 + 0.02 * p;
const lamp = (p: number): number =>
  [40, 170, 290, 430, 560].reduce((sum, c) => sum + 20000 * Math.exp(-0.5 * ((p - c) / 1.8) ** 2), 0);

describe('findTrace', () => {
  it('follows a tilted spectrum of a broadband lamp and finds half of the Gaussian height', () => {
    const trace = findTrace(slit((p) => 5000 + 3000 * Math.sin(p / 90), tilted, 0, 20, 1));
    for (const p of [0, 100, 300, 599]) expect(Math.abs(trace.centreRow[p]! - tilted(p))).toBeLessThan(0.05);
    // Half of the full width at half maximum, sigma sqrt(2 ln 2); straight lines between rows cost less than 0.1.
    expect(Math.abs(trace.below - sigma * Math.sqrt(2 * Math.LN2))).toBeLessThan(0.1);
    expect(Math.abs(trace.above - sigma * Math.sqrt(2 * Math.LN2))).toBeLessThan(0.1);
  });

  it('follows it by emission lines alone', () => {
    const trace = findTrace(slit(lamp, tilted, 0, 20, 2));
    for (const p of [40, 300, 560]) expect(Math.abs(trace.centreRow[p]! - tilted(p))).toBeLessThan(0.15);
  });

  it('follows a bent spectrum', () => {
    const bent = (p: number): number => 18 + 6 * ((p - 300) / 300) ** 2;
    const trace = findTrace(slit(() => 6000, bent, 0, 20, 3));
    for (const p of [5, 300, 590]) expect(Math.abs(trace.centreRow[p]! - bent(p))).toBeLessThan(0.1);
  });

  it('takes all rows where the light fills the height', () => {
    const random = randomStream(4);
    const counts = Float64Array.from({ length: pixels * rows }, () => 4000 + 60 * random.normal());
    expect(findTrace({ pixels, rows, counts }).below).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('extractSpectrum', () => {
  const trace = { centreRow: new Float64Array(3).fill(2), below: 0.75, above: 1 };

  it('gives the mean with edge rows by their part', () => {
    const counts = new Float64Array(15);
    for (const [r, value] of [7, 10, 20, 40, 9].entries()) counts.fill(value, 3 * r, 3 * r + 3);
    // Rows cover 1.25 to 3: a quarter of row 1, all of row 2, half of row 3.
    const expected = (0.25 * 10 + 20 + 0.5 * 40) / 1.75;
    expect(Array.from(extractSpectrum({ pixels: 3, rows: 5, counts }, trace, 1e9))).toEqual([
      expected,
      expected,
      expected,
    ]);
  });

  it('gives NaN where a row inside the trace is saturated or undefined, not where one outside is', () => {
    const counts = new Float64Array(15).fill(10);
    counts[3 * 2 + 0] = 100;
    counts[3 * 3 + 1] = Number.NaN;
    counts[3 * 4 + 2] = 100;
    expect(Array.from(extractSpectrum({ pixels: 3, rows: 5, counts }, trace, 100))).toEqual([
      Number.NaN,
      Number.NaN,
      10,
    ]);
  });

  it('averages all rows under an infinite trace', () => {
    const counts = Float64Array.from({ length: 15 }, (_, i) => i);
    const all = {
      centreRow: new Float64Array(3).fill(2),
      below: Number.POSITIVE_INFINITY,
      above: Number.POSITIVE_INFINITY,
    };
    expect(Array.from(extractSpectrum({ pixels: 3, rows: 5, counts }, all, 1e9))).toEqual([6, 7, 8]);
  });
});

describe('extractSession', () => {
  it('takes darks along the same rows, so that a dark with structure comes off', () => {
    const structure = (image: SlitImage): SlitImage => ({
      ...image,
      counts: image.counts.map((value, i) => value + 50 * Math.floor(i / pixels) + 3 * (i % 7)),
    });
    const spectrum = (p: number): number => 4000 + 2 * p;
    const open = structure(slit(spectrum, tilted, 300, 0, 5));
    const dark = structure(slit(() => 0, tilted, 300, 0, 6));
    const frames = [
      { role: 'dark', exposureMs: 10, image: dark },
      { role: 'open', exposureMs: 10, image: open },
    ] as const;
    const { trace, spectra } = extractSession(frames, 60000);
    const pure = extractSpectrum(slit(spectrum, tilted, 0, 0, 7), trace, 60000);
    for (let p = 0; p < pixels; p++) expect(spectra[1]![p]! - spectra[0]![p]!).toBeCloseTo(pure[p]!, 6);
  });
});
