import { describe, expect, it } from 'vitest';
import { normalCdf, randomStream, splitStream } from '../numeric/index.js';
import { vectorTrials } from '../vector/index.js';
import { normalRows } from './normalRows.js';

const ROWS = 8;
const DRAWS = 2_000_000;
const perCall = ROWS * vectorTrials;

function plainRows(rows: number): { mean: Float64Array; deviation: Float64Array } {
  return { mean: new Float64Array(rows), deviation: new Float64Array(rows).fill(1) };
}

describe('normalRows', () => {
  const { mean, deviation } = plainRows(ROWS);
  const fill = normalRows(mean, deviation);
  const values = new Float64Array(Math.ceil(DRAWS / perCall) * perCall);
  const stream = randomStream(11);
  for (let at = 0; at < values.length; at += perCall) fill(stream, values, at);
  const count = values.length;

  it('has the moments of the normal distribution', () => {
    // Moments 1, 3 are 0, moments 2, 4, 6 are 1, 3, 15; their variances follow from moments 2, 4 to 12.
    const even = [1, 1, 3, 15, 105, 945, 10395];
    for (let power = 1; power <= 6; power++) {
      const expected = power % 2 === 1 ? 0 : even[power / 2]!;
      const standardError = Math.sqrt((even[power]! - expected ** 2) / count);
      const found = values.reduce((sum, value) => sum + value ** power, 0) / count;
      expect(Math.abs(found - expected) / standardError).toBeLessThan(4);
    }
  });

  it('follows the normal distribution everywhere (Kolmogorov-Smirnov)', () => {
    const sorted = values.slice().sort();
    let distance = 0;
    for (let i = 0; i < count; i++) {
      const below = normalCdf(sorted[i]!);
      distance = Math.max(distance, Math.abs(below - i / count), Math.abs(below - (i + 1) / count));
    }
    // 1.95 / sqrt(M) is passed by chance in one case of 1000 (asymptotic law of the statistic).
    expect(distance).toBeLessThan(1.95 / Math.sqrt(count));
  });

  it.each([3, 3.5, 3.654152885361009, 4, 4.5])('has the right share beyond %f on both sides', (edge) => {
    const expected = 2 * count * normalCdf(-edge);
    const found = values.filter((value) => Math.abs(value) > edge).length;
    expect(Math.abs(found - expected)).toBeLessThan(4 * Math.sqrt(expected));
    const right = values.filter((value) => value > edge).length;
    expect(Math.abs(right - expected / 2)).toBeLessThan(4 * Math.sqrt(expected / 2));
  });

  it.each([
    ['the next trial', 1],
    ['the same trial of the next row', vectorTrials],
    ['the same place of the next call', perCall],
  ])('does not depend on %s', (_, away) => {
    let sum = 0;
    let squares = 0;
    for (let i = away; i < count; i++) {
      sum += values[i]! * values[i - away]!;
      squares += (values[i]! ** 2 - 1) * (values[i - away]! ** 2 - 1);
    }
    expect(Math.abs(sum / count)).toBeLessThan(4 / Math.sqrt(count));
    expect(Math.abs(squares / count)).toBeLessThan((4 * 2) / Math.sqrt(count));
  });

  it('scales and shifts each row, and writes from the place given', () => {
    const out = new Float64Array(2 * vectorTrials + 5).fill(9);
    normalRows(Float64Array.of(10, 20), Float64Array.of(0, 0.5))(randomStream(3), out, 3);
    const plain = new Float64Array(2 * vectorTrials);
    normalRows(new Float64Array(2), new Float64Array(2).fill(1))(randomStream(3), plain, 0);
    const expected = plain.map((value, i) => (i < vectorTrials ? 10 : 20 + 0.5 * value));
    expect(out).toEqual(Float64Array.of(9, 9, 9, ...expected, 9, 9));
  });

  it('gives the same bytes for the same stream and others for its neighbour', () => {
    const drawn = (k: number): Float64Array => {
      const out = new Float64Array(perCall);
      normalRows(mean, deviation)(splitStream(7, k), out, 0);
      return out;
    };
    expect(drawn(1)).toEqual(drawn(1));
    const [first, second] = [drawn(1), drawn(2)];
    const product = first.reduce((sum, value, i) => sum + value * second[i]!, 0) / perCall;
    expect(Math.abs(product)).toBeLessThan(4 / Math.sqrt(perCall));
  });
});
