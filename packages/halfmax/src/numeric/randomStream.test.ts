import { describe, expect, it } from 'vitest';
import { type RandomStream, randomStream, splitStream } from './randomStream.js';

const take = (stream: RandomStream, n: number): number[] => Array.from({ length: n }, () => stream.uniform());

/** Correlation of pairs of uniform numbers, in its own standard deviations. */
function correlation(pairs: [number, number][]): number {
  const sum = pairs.reduce((total, [a, b]) => total + (a - 0.5) * (b - 0.5), 0);
  return (sum * 12) / Math.sqrt(pairs.length);
}

describe('randomStream', () => {
  it('gives the same numbers for the same seed and number of stream', () => {
    expect(take(randomStream(5), 20)).toEqual(take(randomStream(5), 20));
    expect(take(splitStream(5, 3), 20)).toEqual(take(splitStream(5, 3), 20));
    expect(take(splitStream(5, 0), 20)).toEqual(take(randomStream(5), 20));
  });

  it('gives other numbers for another seed or stream', () => {
    const firsts = new Set(Array.from({ length: 2000 }, (_, seed) => randomStream(seed).uniform()));
    expect(firsts.size).toBe(2000);
    expect(take(splitStream(5, 1), 5)).not.toEqual(take(randomStream(5), 5));
  });

  // Bounds of 4.5 standard deviations: 7 in a million by chance, and the seeds are fixed.
  it('has first numbers of small and neighbouring seeds that are uniform and unrelated', () => {
    const firsts = Array.from({ length: 20001 }, (_, seed) => take(randomStream(seed), 65));
    for (const k of [0, 1, 64]) {
      expect(Math.abs(correlation(firsts.slice(1).map((f, s) => [firsts[s]![k]!, f[k]!])))).toBeLessThan(4.5);
      const counts = new Array(20).fill(0);
      for (const f of firsts) counts[Math.floor(f[k]! * 20)]++;
      const chiSquare = counts.reduce((sum, c) => sum + (c - 1000.05) ** 2 / 1000.05, 0);
      expect(chiSquare).toBeLessThan(50); // 19 degrees of freedom: 1.3e-4 beyond
    }
  });

  it('has streams of one seed that are unrelated', () => {
    const [a, b] = [splitStream(9, 1), splitStream(9, 2)];
    const pairs = Array.from({ length: 50000 }, (): [number, number] => [a.uniform(), b.uniform()]);
    expect(Math.abs(correlation(pairs))).toBeLessThan(4.5);
  });

  it('has normal numbers with the moments and tails of the normal distribution', () => {
    const stream = randomStream(12);
    const n = 400_000;
    const sums = [0, 0, 0, 0, 0];
    let beyond = 0;
    let previous = 0;
    let lag = 0;
    for (let i = 0; i < n; i++) {
      const z = stream.normal();
      for (let k = 1; k <= 4; k++) sums[k]! += z ** k / n;
      if (Math.abs(z) > 3) beyond++;
      lag += (z * previous) / Math.sqrt(n);
      previous = z;
    }
    // Standard deviations of the moments of n normal numbers: sqrt(1, 2, 15, 96 over n).
    [0, 1, 0, 3].forEach((moment, k) => {
      const deviation = Math.sqrt([1, 2, 15, 96][k]! / n);
      expect(Math.abs(sums[k + 1]! - moment)).toBeLessThan(4.5 * deviation);
    });
    const expected = n * 0.002699796063260207; // 2 Phi(-3)
    expect(Math.abs(beyond - expected)).toBeLessThan(4.5 * Math.sqrt(expected));
    expect(Math.abs(lag)).toBeLessThan(4.5);
  });

  it('has uniform numbers strictly between 0 and 1', () => {
    const values = take(randomStream(3), 200_000);
    expect(values.every((value) => value > 0 && value < 1)).toBe(true);
  });

  it.each([-1, 1.5, 2 ** 32, Number.NaN, Number.POSITIVE_INFINITY])('refuses the seed %d', (seed) => {
    expect(() => randomStream(seed)).toThrow('whole seed from 0 to 4294967295');
  });

  it('refuses the stream -1', () => expect(() => splitStream(1, -1)).toThrow(RangeError));
});
