import { describe, expect, it } from 'vitest';
import { normalCdf, randomStream } from '../numeric/index.js';
import { vectorTrials } from '../vector/index.js';
import { normalRows } from './normalRows.js';
import { layers, normalVariates } from './normalVariates.js';

const ROWS = 8;
const perCall = ROWS * vectorTrials;
const DRAWS = Math.ceil(2_000_000 / perCall) * perCall;

function oneAfterTheOther(): Float64Array {
  const values = new Float64Array(DRAWS);
  normalVariates(randomStream(11), new Float64Array(DRAWS), new Float64Array(DRAWS).fill(1), values, 0);
  return values;
}

function inRows(): Float64Array {
  const values = new Float64Array(DRAWS);
  const fill = normalRows(new Float64Array(ROWS), new Float64Array(ROWS).fill(1));
  const stream = randomStream(11);
  for (let at = 0; at < DRAWS; at += perCall) fill(stream, values, at);
  return values;
}

const NEXT = ['the next', 1] as const;
const APART = [
  NEXT,
  ['the same trial of the next row', vectorTrials],
  ['the same place of the next call', perCall],
] as const;

describe.each([
  ['normalVariates', oneAfterTheOther(), [NEXT]],
  ['normalRows', inRows(), APART],
] as const)('%s', (_, values, away) => {
  it('has the moments of the normal distribution', () => {
    // Moments 1, 3 are 0, moments 2, 4, 6 are 1, 3, 15; their variances follow from moments 2, 4 to 12.
    const even = [1, 1, 3, 15, 105, 945, 10395];
    for (let power = 1; power <= 6; power++) {
      const expected = power % 2 === 1 ? 0 : even[power / 2]!;
      const standardError = Math.sqrt((even[power]! - expected ** 2) / DRAWS);
      const found = values.reduce((sum, value) => sum + value ** power, 0) / DRAWS;
      expect(Math.abs(found - expected) / standardError).toBeLessThan(4);
    }
  });

  it('follows the normal distribution everywhere (Kolmogorov-Smirnov)', () => {
    const sorted = values.slice().sort();
    let distance = 0;
    for (let i = 0; i < DRAWS; i++) {
      const below = normalCdf(sorted[i]!);
      distance = Math.max(distance, Math.abs(below - i / DRAWS), Math.abs(below - (i + 1) / DRAWS));
    }
    // 1.95 / sqrt(M) is passed by chance in one case of 1000 (asymptotic law of the statistic).
    expect(distance).toBeLessThan(1.95 / Math.sqrt(DRAWS));
  });

  it.each([3, 3.5, 3.654152885361009, 4, 4.5])('has the right share beyond %f on both sides', (edge) => {
    const expected = 2 * DRAWS * normalCdf(-edge);
    const found = values.filter((value) => Math.abs(value) > edge).length;
    expect(Math.abs(found - expected)).toBeLessThan(4 * Math.sqrt(expected));
    const right = values.filter((value) => value > edge).length;
    expect(Math.abs(right - expected / 2)).toBeLessThan(4 * Math.sqrt(expected / 2));
  });

  it.each(away)('gives numbers that do not depend on %s', (_, steps) => {
    let sum = 0;
    let squares = 0;
    for (let i = steps; i < DRAWS; i++) {
      sum += values[i]! * values[i - steps]!;
      squares += (values[i]! ** 2 - 1) * (values[i - steps]! ** 2 - 1);
    }
    expect(Math.abs(sum / DRAWS)).toBeLessThan(4 / Math.sqrt(DRAWS));
    expect(Math.abs(squares / DRAWS)).toBeLessThan((4 * 2) / Math.sqrt(DRAWS));
  });
});

describe('normalVariates', () => {
  it('has layers that fill the bell to its top', () => {
    // Rounding of 256 sums and logarithms.
    expect(Math.abs(layers().gap)).toBeLessThan(1e-12);
  });

  it('scales and shifts each number, and writes from the place given', () => {
    const out = new Float64Array(5).fill(9);
    normalVariates(randomStream(3), Float64Array.of(10, 20), Float64Array.of(0, 0.5), out, 2);
    const plain = new Float64Array(2);
    normalVariates(randomStream(3), new Float64Array(2), new Float64Array(2).fill(1), plain, 0);
    expect(out).toEqual(Float64Array.of(9, 9, 10, 20 + 0.5 * plain[1]!, 9));
  });
});
