import type { RandomStream } from '../numeric/index.js';
import { type CompiledInputs, compileInputs } from './compileInputs.js';
import type { Model, UncertainInput } from './distribution.js';
import { requireCount } from './requireCount.js';

/**
 * One block of Monte Carlo trials. A block depends on its own stream alone, so blocks may be made in any order, or
 * on several threads.
 *
 * @param model - function of the inputs
 * @param inputs - in the order of the model's argument
 * @param outputs - how many numbers the model writes
 * @param draws - count of trials
 * @param stream - random numbers of this block
 * @returns for each output its `draws` values, in the order of the trials (trial i is the i-th value of every output);
 *   a value that is not finite marks a trial for which the model has no result
 * @throws {RangeError} counts that are not whole numbers above 0, or distributions with parameters out of range
 *
 * Source: JCGM 101:2008, 7.3 and 7.4. Cost: O(draws) calls of the model.
 */
export function drawBlock(
  model: Model,
  inputs: readonly UncertainInput[] | CompiledInputs,
  outputs: number,
  draws: number,
  stream: RandomStream,
): Float64Array[] {
  requireCount('drawBlock', 'outputs', outputs);
  requireCount('drawBlock', 'draws', draws);
  const compiled = 'draw' in inputs ? inputs : compileInputs(inputs);
  const values = Array.from({ length: outputs }, () => new Float64Array(draws));
  const x = new Float64Array(compiled.size);
  const out = new Float64Array(outputs);
  for (let trial = 0; trial < draws; trial++) {
    compiled.draw(stream, x);
    // An output the model leaves out must not keep the value of the trial before.
    for (let k = 0; k < outputs; k++) out[k] = Number.NaN;
    model(x, out);
    for (let k = 0; k < outputs; k++) values[k]![trial] = out[k]!;
  }
  return values;
}
