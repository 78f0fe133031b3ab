import type { RandomStream } from '../numeric/index.js';
import type { UncertainInput } from './distribution.js';
import { distributionSize } from './distributionSize.js';
import { rowSampler } from './rowSampler.js';

/**
 * What draws all inputs of a model for many trials side by side.
 *
 * @param inputs - in the order of the model's argument
 * @param trials - numbers in a row
 * @returns function that fills a row for each place of the argument
 * @throws {RangeError} distributions with parameters out of range
 */
export function rowDrawer(
  inputs: readonly UncertainInput[],
  trials: number,
): (stream: RandomStream, x: Float64Array) => void {
  let end = 0;
  const parts = inputs.map(({ distribution }) => {
    const at = end;
    end += trials * distributionSize(distribution);
    return { fill: rowSampler(distribution, trials), at };
  });
  return (stream, x) => {
    for (const { fill, at } of parts) fill(stream, x, at);
  };
}
