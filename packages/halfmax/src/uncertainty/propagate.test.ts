import { describe, expect, it } from 'vitest';
import { splitStream } from '../numeric/index.js';
import type { OutputDistribution } from './describeOutput.js';
import type { Model, UncertainInput } from './distribution.js';
import { drawBlock } from './drawBlock.js';
import { propagate } from './propagate.js';

const inputs: UncertainInput[] = [
  { source: 'a', distribution: { kind: 'normal', mean: 1, standardUncertainty: 0.1 } },
  {
    source: 'b',
    distribution: {
      kind: 'multivariateNormal',
      mean: [2, 3],
      covariance: [
        [0.04, 0.03],
        [0.03, 0.09],
      ],
    },
  },
];
const model: Model = (x, out) => {
  out[0] = x[0]! + x[1]! + x[2]!;
  out[1] = x[1]! * x[2]!;
};
const streams = (seed: number) => (block: number) => splitStream(seed, block);

describe('propagate', () => {
  it('tells after each block how far it is', () => {
    const told: number[] = [];
    const onBlock = (draws: number): number => told.push(draws);
    const options = { outputs: 2, streams: streams(3), draws: 2500, blockDraws: 1000 };
    const { samples } = propagate(model, inputs, { ...options, onBlock });
    expect(told).toEqual([1000, 2000, 2500]);
    expect(samples).toEqual(propagate(model, inputs, options).samples);
  });

  it('gives the closed form of a sum with correlated inputs', () => {
    const draws = 100_000;
    const { outputs } = propagate(model, inputs, { outputs: 2, streams: streams(3), draws });
    const sum = outputs[0] as OutputDistribution;
    const u = Math.sqrt(0.01 + 0.04 + 0.09 + 2 * 0.03);
    expect(Math.abs(sum.mean - 6)).toBeLessThan((4 * u) / Math.sqrt(draws));
    // Standard error of a standard deviation of normal values: u / sqrt(2M).
    expect(Math.abs(sum.standardUncertainty - u)).toBeLessThan((4 * u) / Math.sqrt(2 * draws));
    // Mean of a product is the product of means plus the covariance.
    const product = outputs[1] as OutputDistribution;
    expect(Math.abs(product.mean - 6.03)).toBeLessThan((4 * product.standardUncertainty) / Math.sqrt(draws));
  });

  it('gives the same bytes for the same seed and others for another seed', () => {
    const run = (seed: number) => propagate(model, inputs, { outputs: 2, streams: streams(seed), digits: 1 });
    const [first, again, other] = [run(5), run(5), run(6)];
    expect(again).toEqual(first);
    expect(new Uint8Array(again.samples[1]!.buffer)).toEqual(new Uint8Array(first.samples[1]!.buffer));
    expect(other.samples[0]![0]).not.toBe(first.samples[0]![0]);
  });

  it('does not depend on the order in which blocks are made', () => {
    const blockDraws = 1000;
    const { samples, blocks } = propagate(model, inputs, {
      outputs: 2,
      streams: streams(5),
      draws: 4500,
      blockDraws,
    });
    expect(blocks).toBe(5);
    const joined = [new Float64Array(4500), new Float64Array(4500)];
    for (const block of [3, 0, 4, 2, 1]) {
      const size = block === 4 ? 500 : blockDraws;
      const values = drawBlock(model, inputs, 2, size, splitStream(5, block));
      for (const k of [0, 1]) joined[k]!.set(values[k]!, block * blockDraws);
    }
    expect(joined).toEqual(samples);
  });

  it('goes on until every output is stable, and says when it is not', () => {
    const options = { outputs: 1, streams: streams(1), digits: 2 } as const;
    const normal: UncertainInput[] = [
      { source: 'x', distribution: { kind: 'normal', mean: 0, standardUncertainty: 2 } },
    ];
    const identity: Model = (x, out) => {
      out[0] = x[0]!;
    };
    const done = propagate(identity, normal, options);
    expect(done.stopped).toBe('adaptive');
    expect(done.draws).toBe(done.blocks * 10_000);
    expect(done.blocks).toBeGreaterThanOrEqual(2);
    const cut = propagate(identity, normal, { ...options, maximumDraws: 15_000 });
    expect(cut).toMatchObject({ stopped: 'limit', draws: 15_000, blocks: 2 });
    expect(cut.samples[0]).toHaveLength(15_000);
    // The first block of both runs is the same.
    expect(cut.samples[0]!.slice(0, 10_000)).toEqual(done.samples[0]!.slice(0, 10_000));
    const pair = propagate(
      (x, out) => {
        out[0] = 7;
        out[1] = x[0]!;
      },
      normal,
      { ...options, outputs: 2 },
    );
    expect(pair.draws).toBe(done.draws);
    expect(pair.outputs[0]).toMatchObject({ mean: 7, standardUncertainty: 0, shortest: [7, 7] });
  });

  it('takes blocks of 100 / (1 - p) trials where that is more than 10 000', () => {
    const one: UncertainInput[] = [
      { source: 'x', distribution: { kind: 'rectangular', lower: 0, upper: 1 } },
    ];
    const identity: Model = (x, out) => {
      out[0] = x[0]!;
    };
    for (const [coverage, size] of [
      [0.95, 10_000],
      [0.99, 10_000],
      [0.999, 100_000],
    ] as const) {
      const { draws, blocks } = propagate(identity, one, {
        outputs: 1,
        streams: streams(1),
        digits: 1,
        coverage,
      });
      expect(draws / blocks).toBe(size);
    }
    // 100 / (1 - 0.9998) is 500 000.00000006 in floating point: a block of 500 000 leaves one trial for a second.
    const cut = propagate(identity, one, {
      outputs: 1,
      streams: streams(1),
      coverage: 0.9998,
      maximumDraws: 500_001,
    });
    expect(cut.blocks).toBe(2);
  });

  it('leaves an output out where the model has no result, and keeps the others', () => {
    const partly: Model = (x, out) => {
      out[0] = x[0]!;
      if (x[0]! > 0.7) out[1] = x[0]!;
    };
    const run = (allowedFailures: number) =>
      propagate(partly, inputs, { outputs: 2, streams: streams(8), draws: 5000, allowedFailures });
    const strict = run(0);
    const failed = strict.samples[1]!.filter((value) => Number.isNaN(value)).length;
    expect(failed).toBeGreaterThan(0);
    expect(strict.outputs[1]).toEqual({ absent: `the model had no result in ${failed} of 5000 trials` });
    expect(strict.outputs[0]).toMatchObject({ failedDraws: 0 });
    expect(run(0.05).outputs[1]).toMatchObject({ failedDraws: failed, mean: expect.any(Number) });
    const adaptive = propagate(partly, inputs, { outputs: 2, streams: streams(8), digits: 1 });
    expect(adaptive.stopped).toBe('adaptive');
    expect(adaptive.outputs[1]).toHaveProperty('absent');
  });

  it('does not change its arguments', () => {
    const frozen = Object.freeze(inputs.map((input) => Object.freeze({ ...input })));
    expect(() =>
      propagate(model, frozen, Object.freeze({ outputs: 2, streams: streams(1), draws: 100 })),
    ).not.toThrow();
  });

  it.each([
    [{ outputs: 0 }, 'outputs a whole number'],
    [{ draws: 0 }, 'draws a whole number'],
    [{ draws: 5 }, 'more values'],
    [{ draws: 100, coverage: 1 }, 'coverage between 0 and 1'],
    [{ draws: 100, allowedFailures: 1 }, 'allowedFailures'],
    [{ digits: 3 as 2 }, 'digits 1 or 2'],
  ])('refuses %j', (wrong, message) => {
    const options = { outputs: 2, streams: streams(1), ...wrong };
    expect(() => propagate(model, inputs, options)).toThrow(RangeError);
    expect(() => propagate(model, inputs, options)).toThrow(message);
  });

  it('refuses an empty list of inputs', () => {
    expect(() => propagate(model, [], { outputs: 2, streams: streams(1), draws: 100 })).toThrow(
      'at least 1 input',
    );
  });
});
