import { splitStream } from '../numeric/index.js';
import { blockMaker, type Model, type RowModel, type UncertainInput } from '../uncertainty/index.js';

/** What the threads of one run have in common. */
export interface BlockTask {
  readonly module: string;
  readonly make: string;
  readonly data: unknown;
  readonly seed: number;
  readonly outputs: number;
  readonly keep: readonly number[];
  readonly draws: number;
  readonly blockDraws: number;
  readonly blocks: number;
  /** The next block to be made, shared by all threads. */
  readonly next: Int32Array;
}

/** One block made: values of the kept outputs. */
export interface BlockMessage {
  readonly block: number;
  readonly values: readonly Float64Array[];
}

/**
 * Makes blocks of trials until none is left: each is the next one that no other thread has taken.
 *
 * @param task - the model and what there is to do
 * @param store - is given each block with its kept outputs
 * @param pause - waited for after each block
 * @throws {RangeError} the module has no such function
 */
export async function makeBlocks(
  task: BlockTask,
  store: (block: number, values: Float64Array[]) => void,
  pause: (() => Promise<void>) | null = null,
): Promise<void> {
  try {
    await makeAll(task, store, pause);
  } catch (fault) {
    // The other threads need make no more.
    Atomics.store(task.next, 0, task.blocks);
    throw fault;
  }
}

async function makeAll(
  task: BlockTask,
  store: (block: number, values: Float64Array[]) => void,
  pause: (() => Promise<void>) | null,
): Promise<void> {
  const { module, make, data, seed, outputs, keep, draws, blockDraws, blocks, next } = task;
  const loaded = (await import(module)) as Record<string, unknown>;
  const maker = loaded[make];
  if (typeof maker !== 'function')
    throw new RangeError(`propagateInThreads requires a function ${make} in ${module}, got ${typeof maker}`);
  const { model, inputs } = maker(data) as {
    model: Model | RowModel;
    inputs: readonly UncertainInput[];
  };
  const makeBlock = blockMaker(model, inputs, outputs);
  for (let block = Atomics.add(next, 0, 1); block < blocks; block = Atomics.add(next, 0, 1)) {
    const size = Math.min(blockDraws, draws - block * blockDraws);
    const values = makeBlock(size, splitStream(seed, block));
    store(
      block,
      keep.map((k) => values[k]!),
    );
    if (pause !== null) await pause();
  }
}
