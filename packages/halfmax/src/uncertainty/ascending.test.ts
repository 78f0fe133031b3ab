import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { ascending } from './ascending.js';

describe('ascending', () => {
  const stream = randomStream(1);
  const samples: [string, (i: number) => number][] = [
    ['normal draws', () => stream.normal()],
    ['uniform draws', () => stream.uniform()],
    ['heavy tails', () => Math.tan(Math.PI * (stream.uniform() - 0.5))],
    ['few values, many times', () => Math.floor(5 * stream.uniform())],
    ['one value apart from all others', (i) => (i === 7 ? 1e9 : stream.normal())],
    ['one value', () => 3],
    ['two neighbouring numbers', (i) => (i % 2 === 0 ? 1 : 1 + Number.EPSILON)],
    [
      'a span beyond the range of numbers',
      (i) => (i % 2 === 0 ? -1 : 1) * Number.MAX_VALUE * stream.uniform(),
    ],
    ['a span too small for a quotient', (i) => (i % 3) * Number.MIN_VALUE],
    ['ascending already', (i) => i],
    ['descending', (i) => -i],
  ];
  it.each(samples)('gives the order of sort: %s', (_, draw) => {
    for (const n of [1, 2, 255, 256, 1000, 10_007]) {
      const values = Float64Array.from({ length: n }, (__, i) => draw(i));
      const before = values.slice();
      expect(ascending(values)).toEqual(values.slice().sort());
      expect(values).toEqual(before);
    }
  });
});
