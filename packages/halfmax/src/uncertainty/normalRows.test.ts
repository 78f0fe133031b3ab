import { describe, expect, it } from 'vitest';
import { randomStream, splitStream } from '../numeric/index.js';
import { vectorTrials } from '../vector/index.js';
import { normalRows } from './normalRows.js';

// Its law is tested with that of normalVariates.
describe('normalRows', () => {
  it('scales and shifts each row, and writes from the place given', () => {
    const out = new Float64Array(2 * vectorTrials + 5).fill(9);
    normalRows(Float64Array.of(10, 20), Float64Array.of(0, 0.5))(randomStream(3), out, 3);
    const plain = new Float64Array(2 * vectorTrials);
    normalRows(new Float64Array(2), new Float64Array(2).fill(1))(randomStream(3), plain, 0);
    const expected = plain.map((value, i) => (i < vectorTrials ? 10 : 20 + 0.5 * value));
    expect(out).toEqual(Float64Array.of(9, 9, 9, ...expected, 9, 9));
  });

  it('gives the same bytes for the same stream and others for its neighbour', () => {
    const perCall = 8 * vectorTrials;
    const drawn = (k: number): Float64Array => {
      const out = new Float64Array(perCall);
      normalRows(new Float64Array(8), new Float64Array(8).fill(1))(splitStream(7, k), out, 0);
      return out;
    };
    expect(drawn(1)).toEqual(drawn(1));
    const [first, second] = [drawn(1), drawn(2)];
    const product = first.reduce((sum, value, i) => sum + value * second[i]!, 0) / perCall;
    expect(Math.abs(product)).toBeLessThan(4 / Math.sqrt(perCall));
  });
});
