import type { RandomStream } from '../numeric/index.js';
import { compileInputs } from './compileInputs.js';
import type { Model, UncertainInput } from './distribution.js';
import { requireCount } from './requireCount.js';

/** How to run the trials of a budget. */
export interface BudgetOptions {
  /** How many numbers the model writes. */
  readonly outputs: number;
  /** Count of trials; each calls the model once and once more per source. */
  readonly draws: number;
  readonly stream: RandomStream;
}

/** What one source does to an output. */
export interface BudgetShare {
  readonly source: string;
  /** Standard deviation of the output when this source alone varies. */
  readonly standardUncertainty: number;
}

/** What makes one output uncertain. */
export interface OutputBudget {
  /** Largest first. */
  readonly shares: readonly BudgetShare[];
  /** Standard deviation of the output when every source varies. */
  readonly combined: number;
  /** Root of the sum of the squares of the shares: equal to `combined` where the sources act one by one. */
  readonly rootSumOfSquares: number;
  /** rootSumOfSquares squared over combined squared; below 1, sources act together more than alone. */
  readonly explainedVariance: number | { readonly absent: string };
}

/**
 * Uncertainty budget, one source at a time: the spread of each output when only the inputs of one source vary and all
 * others stay at their means. Every source sees the same random draws as the whole.
 *
 * @param model - function of the inputs
 * @param inputs - in the order of the model's argument; inputs with the same `source` vary together
 * @param options - count of outputs and trials, random stream
 * @returns a budget per output, in the unit of the output (divisor M - 1); absent where a trial had no finite result
 * @throws {RangeError} counts out of range, or distributions with parameters out of range
 *
 * Source: JCGM 101:2008, B.6 and B.7 (one-at-a-time use of Monte Carlo; from memory).
 * Cost: draws x (sources + 1) calls of the model.
 */
export function budget(
  model: Model,
  inputs: readonly UncertainInput[],
  options: BudgetOptions,
): readonly (OutputBudget | { readonly absent: string })[] {
  const { outputs, draws, stream } = options;
  requireCount('budget', 'outputs', outputs);
  requireCount('budget', 'draws', draws);
  if (draws < 2) throw new RangeError(`budget requires draws >= 2, got ${draws}`);
  const { size, mean, sourceOf, sources, draw } = compileInputs(inputs);
  const columns = sources.length + 1;
  const means = new Float64Array(outputs * columns);
  const squares = new Float64Array(outputs * columns);
  const x = new Float64Array(size);
  const alone = new Float64Array(size);
  const out = new Float64Array(outputs);
  for (let trial = 0; trial < draws; trial++) {
    draw(stream, x);
    for (let column = 0; column < columns; column++) {
      // The last column is the whole: every source varies.
      const whole = column === sources.length;
      for (let i = 0; i < size; i++) alone[i] = whole || sourceOf[i] === column ? x[i]! : mean[i]!;
      for (let k = 0; k < outputs; k++) out[k] = Number.NaN;
      model(alone, out);
      for (let k = 0; k < outputs; k++) {
        // Running mean and sum of squares about it (B. P. Welford, Technometrics 4 (1962) 419-420).
        const at = k * columns + column;
        const shift = out[k]! - means[at]!;
        means[at]! += shift / (trial + 1);
        squares[at]! += shift * (out[k]! - means[at]!);
      }
    }
  }
  return Array.from({ length: outputs }, (_, k) => {
    const own = squares.subarray(k * columns, (k + 1) * columns);
    const deviations = Array.from(own, (square) => Math.sqrt(square / (draws - 1)));
    if (!deviations.every(Number.isFinite))
      return { absent: 'the model had no result in at least one trial' };
    return describe(sources, deviations);
  });
}

function describe(sources: readonly string[], deviations: readonly number[]): OutputBudget {
  const combined = deviations[sources.length]!;
  const shares = sources
    .map((source, i) => ({ source, standardUncertainty: deviations[i]! }))
    .sort((a, b) => b.standardUncertainty - a.standardUncertainty);
  const rootSumOfSquares = Math.hypot(...shares.map((share) => share.standardUncertainty));
  const explainedVariance =
    combined > 0 ? (rootSumOfSquares / combined) ** 2 : { absent: 'the output does not vary at all' };
  return { shares, combined, rootSumOfSquares, explainedVariance };
}
