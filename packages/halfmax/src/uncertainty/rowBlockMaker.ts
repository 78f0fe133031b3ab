import type { RandomStream } from '../numeric/index.js';
import type { CompiledInputs } from './compileInputs.js';
import type { RowModel } from './distribution.js';
import { distributionSize } from './distributionSize.js';
import { requireCount } from './requireCount.js';
import { rowSampler } from './rowSampler.js';

/**
 * Makes ready what draws blocks of trials, many side by side.
 *
 * @param model - for rows of trials
 * @param compiled - inputs in the order of the model's argument
 * @param outputs - how many results the model writes
 * @returns maker of blocks; its random numbers may be others than those of a model for single trials
 * @throws {RangeError} trials that are no whole number above 0, distributions with parameters out of range
 */
export function rowBlockMaker(
  { trials, run }: RowModel,
  { inputs, size }: CompiledInputs,
  outputs: number,
): (draws: number, stream: RandomStream) => Float64Array[] {
  requireCount('propagate', 'trials of the model', trials);
  const x = new Float64Array(trials * size);
  const out = new Float64Array(trials * outputs);
  let end = 0;
  const parts = inputs.map(({ distribution }) => {
    const at = end;
    end += trials * distributionSize(distribution);
    return { fill: rowSampler(distribution, trials), at };
  });
  return (draws, stream) => {
    const values = Array.from({ length: outputs }, () => new Float64Array(draws));
    for (let first = 0; first < draws; first += trials) {
      for (const { fill, at } of parts) fill(stream, x, at);
      // An output the model leaves out must not keep the values of the trials before.
      out.fill(Number.NaN);
      run(x, out);
      const count = Math.min(trials, draws - first);
      for (let k = 0; k < outputs; k++) values[k]!.set(out.subarray(k * trials, k * trials + count), first);
    }
    return values;
  };
}
