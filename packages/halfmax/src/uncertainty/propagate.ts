import type { RandomStream } from '../numeric/index.js';
import { adaptiveStop, type BlockSummary } from './adaptiveStop.js';
import { blockMaker } from './blockMaker.js';
import { coveredCount } from './coverageInterval.js';
import { describeOutput, finiteValues, type OutputDistribution } from './describeOutput.js';
import type { Model, RowModel, UncertainInput } from './distribution.js';
import { pooledSpread, type Spread } from './pooledSpread.js';
import { requireCount } from './requireCount.js';
import { summariseSample } from './summariseSample.js';

/** How to run the trials. */
export interface PropagateOptions {
  /** How many numbers the model writes. */
  readonly outputs: number;
  /** Independent random numbers for each block, such as `(block) => splitStream(seed, block)`. */
  readonly streams: (block: number) => RandomStream;
  /** Probability of the coverage intervals. @default 0.95 */
  readonly coverage?: number;
  /** A fixed count of trials; left out, trials go on until the results are stable to `digits`. */
  readonly draws?: number;
  /** Significant digits of the standard uncertainty to be reached, 1 or 2. @default 2 */
  readonly digits?: 1 | 2;
  /** Which interval must be stable. @default 'symmetric' */
  readonly stableInterval?: 'symmetric' | 'shortest';
  /** Outputs that must be stable for an adaptive run to end, by position. @default all */
  readonly stableOutputs?: readonly number[];
  /** Divides the numerical tolerance; 5 where the result is to judge the first-order law. @default 1 */
  readonly toleranceDivisor?: number;
  /** Trials after which an adaptive run ends, stable or not. @default 2 000 000 */
  readonly maximumDraws?: number;
  /** Trials a block. @default the larger of 10 000 and 100 / (1 - coverage) */
  readonly blockDraws?: number;
  /** Largest fraction of trials without a finite result an output may have, 0 to 0.5. @default 0 */
  readonly allowedFailures?: number;
  /** Told after each block how many trials there are by then. */
  readonly onBlock?: (draws: number) => void;
}

/** What a Monte Carlo run gives. */
export interface PropagateResult {
  readonly outputs: readonly (OutputDistribution | { readonly absent: string })[];
  /** Values of each output in the order of the trials: trial i is the i-th value of every output. */
  readonly samples: readonly Float64Array[];
  readonly coverage: number;
  readonly draws: number;
  readonly blocks: number;
  /** 'adaptive': the results became stable; 'fixed': the count asked for; 'limit': not stable at `maximumDraws`. */
  readonly stopped: 'adaptive' | 'fixed' | 'limit';
}

/**
 * Propagates distributions through a model by Monte Carlo.
 *
 * Trials are made in blocks, each with a random stream of its own, so the result depends on the streams alone and not
 * on the order in which blocks are run. Without a fixed count, blocks are added until every output is stable.
 *
 * @param model - function of the inputs, with one or more outputs, for one trial or for rows of trials
 * @param inputs - in the order of the model's argument
 * @param options - count of outputs, streams, and when to stop
 * @returns mean, standard uncertainty and coverage intervals of each output (divisor M - 1), with the samples; an
 *   output is absent where more trials than allowed had no finite result
 * @throws {RangeError} options or distributions out of range
 *
 * Source: JCGM 101:2008, clause 7; adaptive procedure 7.9.4, for several outputs together until each is stable.
 */
export function propagate(
  model: Model | RowModel,
  inputs: readonly UncertainInput[],
  options: PropagateOptions,
): PropagateResult {
  const {
    outputs,
    streams,
    coverage = 0.95,
    digits = 2,
    toleranceDivisor = 1,
    allowedFailures = 0,
  } = options;
  const { stableInterval = 'symmetric', blockDraws = defaultBlockDraws(coverage) } = options;
  const fixed = options.draws !== undefined;
  const limit = options.draws ?? options.maximumDraws ?? 2_000_000;
  requireCount('propagate', 'outputs', outputs);
  requireCount('propagate', 'blockDraws', blockDraws);
  requireCount('propagate', fixed ? 'draws' : 'maximumDraws', limit);
  coveredCount('propagate', fixed ? limit : Math.min(limit, blockDraws), coverage);
  if (!(allowedFailures >= 0 && allowedFailures <= 0.5)) {
    throw new RangeError(`propagate requires allowedFailures from 0 to 0.5, got ${allowedFailures}`);
  }

  const make = blockMaker(model, inputs, outputs);
  // A fixed count gets its room at once, an adaptive run block by block.
  let samples: Float64Array[] = Array.from({ length: outputs }, () => new Float64Array(fixed ? limit : 0));
  const summaries: BlockSummary[][] = samples.map(() => []);
  const totals: Spread[] = samples.map(() => ({ count: 0, mean: 0, squares: 0 }));
  const failed = new Float64Array(outputs);
  let draws = 0;
  let blocks = 0;
  let stable = false;
  while (draws < limit && !stable) {
    const size = Math.min(blockDraws, limit - draws);
    const block = make(size, streams(blocks));
    samples = samples.map((sample, k) => stored(sample, draws, block[k]!, limit));
    draws += size;
    blocks += 1;
    options.onBlock?.(draws);
    if (fixed || size < blockDraws) continue;
    stable = true;
    for (let k = 0; k < outputs; k++) {
      const values = finiteValues(block[k]!);
      failed[k]! += size - values.length;
      // An output that will be absent is not waited for, nor one that need not be stable.
      if (options.stableOutputs?.includes(k) === false) continue;
      if (failed[k]! > allowedFailures * draws) continue;
      const summary = summariseSample(values, coverage);
      const ends = summary[stableInterval];
      summaries[k]!.push({ ...summary, low: ends[0], high: ends[1] });
      totals[k] = pooledSpread(totals[k]!, values.length, summary.mean, summary.standardUncertainty);
      const all = Math.sqrt(totals[k]!.squares / (totals[k]!.count - 1));
      stable = adaptiveStop(summaries[k]!, all, digits, toleranceDivisor).enough && stable;
    }
  }
  samples = samples.map((sample) => (sample.length === draws ? sample : sample.slice(0, draws)));
  return {
    outputs: samples.map((sample) => describeOutput(sample, coverage, allowedFailures)),
    samples,
    coverage,
    draws,
    blocks,
    stopped: fixed ? 'fixed' : stable ? 'adaptive' : 'limit',
  };
}

/** JCGM 101:2008, 7.9.4 a: M = max(J, 10^4), J the smallest whole number not below 100 / (1 - p). */
function defaultBlockDraws(coverage: number): number {
  if (!(coverage > 0 && coverage < 1)) {
    throw new RangeError(`propagate requires coverage between 0 and 1, got ${coverage}`);
  }
  // The small factor keeps the rounding of 1 - p from adding one to a whole number.
  return Math.max(10_000, Math.ceil((100 / (1 - coverage)) * (1 - 1e-9)));
}

/** The sample with a block added; room is doubled when it runs out. */
function stored(sample: Float64Array, used: number, block: Float64Array, limit: number): Float64Array {
  let room = sample;
  if (used + block.length > sample.length) {
    room = new Float64Array(Math.min(limit, Math.max(used + block.length, 2 * sample.length)));
    room.set(sample.subarray(0, used));
  }
  room.set(block, used);
  return room;
}
