import { describe, expect, it } from 'vitest';
import { randomStream, splitStream } from '../numeric/index.js';
import { compileInputs } from './compileInputs.js';
import type { Distribution, Model, RowModel, UncertainInput } from './distribution.js';
import { drawBlock } from './drawBlock.js';
import { propagate } from './propagate.js';
import { rowSampler, rowTrials } from './rowSampler.js';
import { sampler } from './sampler.js';

const inputs: UncertainInput[] = [
  { source: 'length', distribution: { kind: 'normal', mean: 10, standardUncertainty: 0.1 } },
  {
    source: 'pixels',
    distribution: { kind: 'independentNormal', mean: [2, 3], standardUncertainty: [0.05, 0.02] },
  },
  { source: 'time', distribution: { kind: 'rectangular', lower: 1, upper: 1.5 } },
];
const single: Model = (x, out) => {
  out[0] = (x[0]! * x[1]!) / x[3]!;
  if (x[2]! > 3) out[1] = x[2]!;
};
const rows = (trials: number): RowModel => ({
  trials,
  run: (x, out) => {
    for (let i = 0; i < trials; i++) {
      out[i] = (x[i]! * x[trials + i]!) / x[3 * trials + i]!;
      if (x[2 * trials + i]! > 3) out[trials + i] = x[2 * trials + i]!;
    }
  },
});

describe('a model for rows of trials', () => {
  const options = {
    outputs: 2,
    draws: 200_000,
    allowedFailures: 0.5,
    streams: (k: number) => splitStream(4, k),
  };

  it('gives what the same model for single trials gives, within sampling error', () => {
    const [one, two] = propagate(single, inputs, options).outputs;
    const [first, second] = propagate(rows(rowTrials), inputs, options).outputs;
    // The second result is there in half of the trials alone, and none may be missing.
    expect(two).toHaveProperty('absent');
    expect(second).toHaveProperty('absent');
    if (one === undefined || first === undefined || 'absent' in one || 'absent' in first)
      throw new Error('no result');
    const error = Math.sqrt(2 / options.draws) * one.standardUncertainty;
    expect(Math.abs(first.mean - one.mean)).toBeLessThan(4 * error);
    // The standard deviation of a standard deviation, for kurtosis below 3.
    expect(Math.abs(first.standardUncertainty / one.standardUncertainty - 1)).toBeLessThan(
      4 / Math.sqrt(options.draws),
    );
  });

  it('leaves a result that it did not write without a number', () => {
    const [, second] = drawBlock(rows(rowTrials), inputs, 2, 20_000, randomStream(1));
    const missing = second!.filter(Number.isNaN).length;
    expect(Math.abs(missing / 20_000 - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / 20_000));
    expect(second!.every((value) => Number.isNaN(value) || value > 3)).toBe(true);
  });

  it.each([1, rowTrials - 1, rowTrials, rowTrials + 1, 1000])(
    'begins a block of %i as a longer one',
    (draws) => {
      const [longer] = drawBlock(rows(rowTrials), inputs, 2, 2000, randomStream(2));
      const [block] = drawBlock(rows(rowTrials), inputs, 2, draws, randomStream(2));
      expect(block).toEqual(longer!.slice(0, draws));
    },
  );

  it('takes inputs that were made ready before', () => {
    const compiled = compileInputs(inputs);
    for (const model of [single, rows(rowTrials)])
      expect(drawBlock(model, compiled, 2, 300, randomStream(2))).toEqual(
        drawBlock(model, inputs, 2, 300, randomStream(2)),
      );
  });

  it.each([0, 1.5, Number.NaN])('refuses rows of %d', (trials) => {
    expect(() => drawBlock(rows(trials), inputs, 2, 10, randomStream(1))).toThrow('trials of the model');
  });

  it('takes rows of any length', () => {
    const [block] = drawBlock(rows(10), inputs, 2, 105, randomStream(2));
    expect(block).toHaveLength(105);
    expect(block!.every(Number.isFinite)).toBe(true);
  });
});

describe('rowSampler', () => {
  const kinds: Distribution[] = [
    { kind: 'normal', mean: 3, standardUncertainty: 0.5 },
    { kind: 'student', mean: 215, scale: 6, degreesOfFreedom: 24 },
    {
      kind: 'multivariateNormal',
      mean: [1, 2],
      covariance: [
        [2, 1],
        [1, 3],
      ],
    },
    { kind: 'resampled', values: [1, 2, 2, 7, -4], count: 3 },
  ];

  it.each(kinds)('makes of a stream the numbers that a sampler makes, trial by trial: %j', (distribution) => {
    const [trials, size] = [
      7,
      distribution.kind === 'multivariateNormal' ? 2 : distribution.kind === 'resampled' ? 3 : 1,
    ];
    const x = new Float64Array(trials * size + 1);
    rowSampler(distribution, trials)(randomStream(9), x, 1);
    const [draw, stream, one] = [sampler(distribution), randomStream(9), new Float64Array(size)];
    for (let trial = 0; trial < trials; trial++) {
      draw(stream, one, 0);
      for (let i = 0; i < size; i++) expect(x[1 + i * trials + trial]).toBe(one[i]);
    }
  });
});
