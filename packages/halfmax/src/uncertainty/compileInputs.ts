import type { RandomStream } from '../numeric/index.js';
import type { UncertainInput } from './distribution.js';
import { distributionMean } from './distributionMean.js';
import { distributionSize } from './distributionSize.js';
import { type Sampler, sampler } from './sampler.js';

/** Inputs made ready for many draws. */
export interface CompiledInputs {
  /** What they were made from. */
  readonly inputs: readonly UncertainInput[];
  /** Length of the model's argument. */
  readonly size: number;
  /** Expectation of each place of the argument. */
  readonly mean: Float64Array;
  /** Number of the source, in `sources`, that each place belongs to. */
  readonly sourceOf: Int32Array;
  /** Names of the sources in the order of first appearance. */
  readonly sources: readonly string[];
  /** Makes one draw of all inputs, in their order. */
  readonly draw: (stream: RandomStream, x: Float64Array) => void;
}

/**
 * Makes a list of inputs ready for many draws.
 *
 * @param inputs - in the order of the model's argument; at least one
 * @returns samplers, expectations and sources, place by place
 * @throws {RangeError} no input, or a distribution with parameters out of range
 */
export function compileInputs(inputs: readonly UncertainInput[]): CompiledInputs {
  if (inputs.length === 0) throw new RangeError('compileInputs requires at least 1 input, got 0');
  const samplers: Sampler[] = [];
  const offsets: number[] = [];
  const means: number[] = [];
  const sourceOf: number[] = [];
  const sources: string[] = [];
  for (const { source, distribution } of inputs) {
    if (!sources.includes(source)) sources.push(source);
    offsets.push(means.length);
    samplers.push(sampler(distribution));
    const mean = distributionMean(distribution);
    for (let i = 0; i < distributionSize(distribution); i++) {
      means.push(mean[i]!);
      sourceOf.push(sources.indexOf(source));
    }
  }
  return {
    inputs,
    size: means.length,
    mean: Float64Array.from(means),
    sourceOf: Int32Array.from(sourceOf),
    sources,
    draw: (stream, x) => {
      for (let i = 0; i < samplers.length; i++) samplers[i]!(stream, x, offsets[i]!);
    },
  };
}
