import { describe, expect, it } from 'vitest';
import { randomStream } from '../numeric/index.js';
import { budget, type OutputBudget } from './budget.js';
import type { UncertainInput } from './distribution.js';

const DRAWS = 20_000;
// Standard error of a standard deviation of normal values is s / sqrt(2M); of flatter ones it is smaller.
const BOUND = 4 / Math.sqrt(2 * DRAWS);

const inputs: UncertainInput[] = [
  { source: 'small', distribution: { kind: 'normal', mean: 10, standardUncertainty: 0.5 } },
  { source: 'large', distribution: { kind: 'independentNormal', mean: [0, 0], standardUncertainty: [3, 4] } },
  { source: 'small', distribution: { kind: 'rectangular', lower: -1, upper: 1 } },
];

describe('budget', () => {
  it('gives the spread of each source of a sum, largest first, and squares that add up', () => {
    const [result] = budget(
      (x, out) => {
        out[0] = x[0]! + x[1]! + x[2]! + x[3]!;
      },
      inputs,
      { outputs: 1, draws: DRAWS, stream: randomStream(4) },
    ) as [OutputBudget];
    expect(result.shares.map((share) => share.source)).toEqual(['large', 'small']);
    const small = Math.sqrt(0.25 + 1 / 3);
    expect(Math.abs(result.shares[0]!.standardUncertainty / 5 - 1)).toBeLessThan(BOUND);
    expect(Math.abs(result.shares[1]!.standardUncertainty / small - 1)).toBeLessThan(BOUND);
    expect(Math.abs(result.combined / Math.hypot(5, small) - 1)).toBeLessThan(BOUND);
    expect(result.rootSumOfSquares).toBeCloseTo(
      Math.hypot(...result.shares.map((s) => s.standardUncertainty)),
      12,
    );
    // In a sum only the chance correlation of the draws is left: 2 s1 s2 / (s1^2 + s2^2) / sqrt(M).
    expect(Math.abs((result.explainedVariance as number) - 1)).toBeLessThan(
      (4 * 2 * 5 * small) / 25 / Math.sqrt(DRAWS),
    );
  });

  it('shows sources that act only together', () => {
    const two: UncertainInput[] = ['a', 'b'].map((source) => ({
      source,
      distribution: { kind: 'normal', mean: 0, standardUncertainty: 1 },
    }));
    const [product, constant] = budget(
      (x, out) => {
        out[0] = x[0]! * x[1]!;
        out[1] = 4;
      },
      two,
      { outputs: 2, draws: DRAWS, stream: randomStream(4) },
    ) as [OutputBudget, OutputBudget];
    // Each alone leaves the product at 0 while both together give a standard deviation of 1.
    expect(product.rootSumOfSquares).toBe(0);
    expect(product.explainedVariance).toBe(0);
    // Kurtosis 9 of the product: standard error sqrt(8 / (4M)).
    expect(Math.abs(product.combined - 1)).toBeLessThan(4 * Math.sqrt(2 / DRAWS));
    expect(constant).toMatchObject({ combined: 0, explainedVariance: { absent: expect.any(String) } });
  });

  it('is absent where the model has no result', () => {
    const results = budget(
      (x, out) => {
        out[0] = Math.sqrt(x[1]!);
        out[1] = x[1]!;
      },
      inputs,
      { outputs: 2, draws: 100, stream: randomStream(4) },
    );
    expect(results[0]).toHaveProperty('absent');
    expect(results[1]).toHaveProperty('combined');
  });

  it('refuses fewer than two trials', () => {
    const run = () => budget(() => {}, inputs, { outputs: 1, draws: 1, stream: randomStream(1) });
    expect(run).toThrow('draws >= 2, got 1');
  });
});
