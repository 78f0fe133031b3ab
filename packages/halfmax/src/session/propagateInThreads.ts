import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { describeOutput, type PropagateResult } from '../uncertainty/index.js';
import { type BlockMessage, type BlockTask, makeBlocks } from './makeBlocks.js';

/** How to run trials in threads. */
export interface ThreadedTrials {
  /** Address of a module with a function that makes the model; each thread loads it. */
  readonly module: string;
  /** Name of that function in the module: it takes `data` and gives `{ model, inputs }`. */
  readonly make: string;
  /** Plain data for the function. */
  readonly data: unknown;
  /** How many numbers the model writes. */
  readonly outputs: number;
  /** Outputs to be kept, by position. @default all */
  readonly keep?: readonly number[];
  readonly seed: number;
  readonly draws: number;
  /** Threads that share the blocks, this one among them; 1: it alone. */
  readonly threads: number;
  /** Probability of the coverage intervals. @default 0.95 */
  readonly coverage?: number;
  /** Trials a block. @default 10 000 */
  readonly blockDraws?: number;
  /** Largest fraction of trials without a finite result an output may have. @default 0 */
  readonly allowedFailures?: number;
}

/**
 * A fixed count of Monte Carlo trials, in blocks that are shared out to threads. Block k has stream k of the
 * seed wherever it is made, so the result is that of `propagate` with `splitStream(seed, k)`, whatever the threads.
 * The module runs in this thread too, which hears others between blocks only.
 *
 * @param trials - model, seed, draws, threads
 * @returns the kept outputs and their samples, in the order of `keep`
 * @throws {RangeError} counts that are not whole numbers above 0
 *
 * Source: JCGM 101:2008, clause 7.
 */
export async function propagateInThreads(trials: ThreadedTrials): Promise<PropagateResult> {
  const { draws, blockDraws = 10_000, coverage = 0.95, allowedFailures = 0, outputs } = trials;
  for (const [name, count] of Object.entries({ draws, blockDraws, threads: trials.threads })) {
    if (!(Number.isInteger(count) && count > 0))
      throw new RangeError(`propagateInThreads requires ${name} a whole number > 0, got ${count}`);
  }
  const keep = trials.keep ?? Array.from({ length: outputs }, (_, k) => k);
  const blocks = Math.ceil(draws / blockDraws);
  const samples = keep.map(() => new Float64Array(draws));
  let made = 0;
  const store = (block: number, values: readonly Float64Array[]): void => {
    made++;
    values.forEach((value, k) => {
      samples[k]!.set(value, block * blockDraws);
    });
  };
  const { module, make, data, seed } = trials;
  const next = new Int32Array(new SharedArrayBuffer(4));
  const task: BlockTask = { module, make, data, seed, outputs, keep, draws, blockDraws, blocks, next };
  const threads = existsSync(workerFile) ? Math.min(trials.threads, blocks) : 1;
  // This thread takes blocks too: it begins while the workers start.
  if (threads === 1) await makeBlocks(task, store);
  else await withWorkers(task, threads - 1, store, () => makeBlocks(task, store, pause));
  if (made !== blocks) throw new Error(`only ${made} of ${blocks} blocks were made`);
  return {
    outputs: samples.map((sample) => describeOutput(sample, coverage, allowedFailures)),
    samples,
    coverage,
    draws,
    blocks,
    stopped: 'fixed',
  };
}

/** Lets this thread hear what has come meanwhile, such as an interrupt. */
const pause = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** The code of a worker; there is none where the package runs from its sources. */
const workerFile: URL = new URL('./blockWorker.js', import.meta.url);

/** Makes blocks in workers and at the same time in this thread; a fault of one ends all. */
async function withWorkers(
  task: BlockTask,
  threads: number,
  store: (block: number, values: readonly Float64Array[]) => void,
  here: () => Promise<void>,
): Promise<void> {
  const workers: Worker[] = [];
  try {
    for (let k = 0; k < threads; k++) workers.push(new Worker(workerFile, { workerData: task }));
    await Promise.all([...workers.map((worker) => ended(worker, store)), here()]);
  } finally {
    // After a fault nothing more need be made.
    Atomics.store(task.next, 0, task.blocks);
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
}

function ended(
  worker: Worker,
  store: (block: number, values: readonly Float64Array[]) => void,
): Promise<void> {
  return new Promise((resolve, reject) => {
    worker.on('message', ({ block, values }: BlockMessage) => store(block, values));
    worker.on('error', reject);
    worker.on('exit', (code) => (code === 0 ? resolve() : reject(new Error(`a worker ended with ${code}`))));
  });
}
