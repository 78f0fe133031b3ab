import type { RandomStream } from '../numeric/index.js';
import type { CompiledInputs } from './compileInputs.js';
import type { Model, RowModel } from './distribution.js';
import { requireCount } from './requireCount.js';
import { rowDrawer } from './rowDrawer.js';

/** How many outputs, trials, and random numbers for them. */
interface Trials {
  readonly outputs: number;
  readonly draws: number;
  readonly stream: RandomStream;
}

/**
 * Squares of the outputs about their means, summed over trials, each source varying alone, then all of them.
 *
 * @param model - function of the inputs
 * @param compiled - the inputs
 * @param trials - outputs, draws, random stream
 * @returns for each output a number for each source and one for all
 */
export function spreadBySource(
  model: Model,
  { size, mean, sourceOf, sources, draw }: CompiledInputs,
  { outputs, draws, stream }: Trials,
): Float64Array {
  const columns = sources.length + 1;
  const spread = runningSpread(outputs * columns);
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
      for (let k = 0; k < outputs; k++) spread.add(k * columns + column, trial, out[k]!);
    }
  }
  return spread.squares;
}

/** The same for a model that takes trials side by side; its random numbers are others. */
export function rowSpreadBySource(
  { trials, run }: RowModel,
  { inputs, size, mean, sourceOf, sources }: CompiledInputs,
  { outputs, draws, stream }: Trials,
): Float64Array {
  requireCount('budget', 'trials of the model', trials);
  const columns = sources.length + 1;
  const spread = runningSpread(outputs * columns);
  const draw = rowDrawer(inputs, trials);
  const x = new Float64Array(trials * size);
  const alone = new Float64Array(trials * size);
  const out = new Float64Array(trials * outputs);
  const reset = (i: number): void => void alone.fill(mean[i]!, i * trials, (i + 1) * trials);
  for (let i = 0; i < size; i++) reset(i);
  for (let first = 0; first < draws; first += trials) {
    draw(stream, x);
    const count = Math.min(trials, draws - first);
    for (let column = 0; column < columns; column++) {
      const whole = column === sources.length;
      for (let i = 0; i < size; i++)
        if (sourceOf[i] === column) alone.set(x.subarray(i * trials, (i + 1) * trials), i * trials);
      out.fill(Number.NaN);
      run(whole ? x : alone, out);
      for (let k = 0; k < outputs; k++)
        for (let trial = 0; trial < count; trial++)
          spread.add(k * columns + column, first + trial, out[k * trials + trial]!);
      for (let i = 0; i < size; i++) if (sourceOf[i] === column) reset(i);
    }
  }
  return spread.squares;
}

/** Running means and sums of squares about them (B. P. Welford, Technometrics 4 (1962) 419-420). */
function runningSpread(length: number): {
  readonly squares: Float64Array;
  readonly add: (at: number, before: number, value: number) => void;
} {
  const means = new Float64Array(length);
  const squares = new Float64Array(length);
  return {
    squares,
    add: (at, before, value) => {
      const shift = value - means[at]!;
      means[at]! += shift / (before + 1);
      squares[at]! += shift * (value - means[at]!);
    },
  };
}
