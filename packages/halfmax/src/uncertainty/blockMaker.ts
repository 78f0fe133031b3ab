import type { RandomStream } from '../numeric/index.js';
import { type CompiledInputs, compileInputs } from './compileInputs.js';
import type { Model, RowModel, UncertainInput } from './distribution.js';
import { rowBlockMaker } from './rowBlockMaker.js';

/** Makes a block of trials with a stream of its own: the values of each output, in the order of the trials. */
export type BlockMaker = (draws: number, stream: RandomStream) => Float64Array[];

/**
 * Makes ready what draws blocks of trials: everything that does not change from block to block is worked out here.
 *
 * @param model - function of the inputs, for one trial or for rows of trials
 * @param inputs - in the order of the model's argument
 * @param outputs - how many numbers the model writes
 * @returns maker of blocks
 * @throws {RangeError} distributions with parameters out of range
 */
export function blockMaker(
  model: Model | RowModel,
  inputs: readonly UncertainInput[] | CompiledInputs,
  outputs: number,
): BlockMaker {
  const compiled = 'draw' in inputs ? inputs : compileInputs(inputs);
  if (typeof model !== 'function') return rowBlockMaker(model, compiled, outputs);
  const { size, draw } = compiled;
  const x = new Float64Array(size);
  const out = new Float64Array(outputs);
  return (draws, stream) => {
    const values = Array.from({ length: outputs }, () => new Float64Array(draws));
    for (let trial = 0; trial < draws; trial++) {
      draw(stream, x);
      // An output the model leaves out must not keep the value of the trial before.
      for (let k = 0; k < outputs; k++) out[k] = Number.NaN;
      model(x, out);
      for (let k = 0; k < outputs; k++) values[k]![trial] = out[k]!;
    }
    return values;
  };
}
