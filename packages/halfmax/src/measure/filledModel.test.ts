import { describe, expect, it } from 'vitest';
import { splitStream } from '../numeric/index.js';
import { budget, type Model, type UncertainInput } from '../uncertainty/index.js';
import { filledModel } from './filledModel.js';

const normal = (source: string): UncertainInput => ({
  source,
  distribution: { kind: 'normal', mean: 0, standardUncertainty: 1 },
});
/** 5 + 3 a + 4 b, without a result in about one of 740 draws of a: beyond 3 standard deviations. */
const model: Model = (x, out) => {
  out[0] = x[0]! > 3 ? Number.NaN : 5 + 3 * x[0]! + 4 * x[1]!;
};
const budgetOf = (of: Model) =>
  budget(of, [normal('a'), normal('b')], { outputs: 1, draws: 4000, stream: splitStream(3, 0) })[0]!;

describe('filledModel', () => {
  it('keeps a budget where a few draws have no result', () => {
    expect(budgetOf(model)).toHaveProperty('absent');
    const filled = budgetOf(filledModel(model, Float64Array.of(5)));
    if ('absent' in filled) throw new Error(filled.absent);
    const shares = new Map(filled.shares.map((share) => [share.source, share.standardUncertainty]));
    // standard deviations of 3 and 4, known to 1 / sqrt(8000) = 1.1 % each; the draws beyond 3 hold 1.5 % of a variance
    expect(Math.abs(shares.get('a')! / 3 - 1)).toBeLessThan(0.04);
    expect(Math.abs(shares.get('b')! / 4 - 1)).toBeLessThan(0.035);
  });

  it('stays without an output that has no central result', () => {
    expect(budgetOf(filledModel(model, Float64Array.of(Number.NaN)))).toHaveProperty('absent');
  });
});
