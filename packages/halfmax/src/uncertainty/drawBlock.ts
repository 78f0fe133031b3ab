import type { RandomStream } from '../numeric/index.js';
import { blockMaker } from './blockMaker.js';
import type { CompiledInputs } from './compileInputs.js';
import type { Model, RowModel, UncertainInput } from './distribution.js';
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
  model: Model | RowModel,
  inputs: readonly UncertainInput[] | CompiledInputs,
  outputs: number,
  draws: number,
  stream: RandomStream,
): Float64Array[] {
  requireCount('drawBlock', 'outputs', outputs);
  requireCount('drawBlock', 'draws', draws);
  return blockMaker(model, inputs, outputs)(draws, stream);
}
