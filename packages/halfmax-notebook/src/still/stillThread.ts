import { Worker } from 'node:worker_threads';
import type { Output } from '../notebook/index.js';
import { figureWithoutStill } from './addStills.js';

/** A thread that draws stills for all notebooks of a command: the document and Plotly are loaded once, beside the kernels. */
export interface StillThread {
  /** The outputs with a still picture beside each figure that has none and can be drawn; rejected where a limit is passed. */
  readonly withStills: (outputs: readonly Output[]) => Promise<readonly Output[]>;
  /** Ends the thread, drawn or not. */
  readonly end: () => void;
}

/** Limits of the thread. */
export interface StillLimits {
  /** Most milliseconds until outputs have been drawn. */
  readonly ms: number;
  readonly memoryMb: number;
}

/** What goes to the thread, and comes back with the outputs drawn. */
export interface StillTask {
  readonly task: number;
  readonly outputs: readonly Output[];
}

interface Waiting {
  readonly resolve: (outputs: readonly Output[]) => void;
  readonly reject: (fault: Error) => void;
  readonly timer: NodeJS.Timeout;
}

const workerFile: URL = new URL('./stillWorker.js', import.meta.url);

/**
 * A thread for stills; it starts with the first figure.
 *
 * @param limits - what a drawing may take
 * @returns the thread; end it
 */
export function stillThread(limits: StillLimits): StillThread {
  const waiting = new Map<number, Waiting>();
  let worker: Worker | null = null;
  let tasks = 0;

  const take = (task: number): Waiting | undefined => {
    const one = waiting.get(task);
    clearTimeout(one?.timer);
    waiting.delete(task);
    return one;
  };
  /** Ends the thread and all that wait for it; the next figure starts another. */
  const fail = (why: string): void => {
    void worker?.terminate();
    worker = null;
    for (const task of [...waiting.keys()]) take(task)?.reject(new Error(why));
  };
  const start = (): Worker => {
    const started = new Worker(workerFile, { resourceLimits: { maxOldGenerationSizeMb: limits.memoryMb } });
    const ended = (why: string): void => {
      if (worker === started) fail(why);
    };
    started.on('message', ({ task, outputs }: StillTask) => take(task)?.resolve(outputs));
    started.on('error', (fault) => ended(fault.message));
    started.on('exit', (code) => ended(`its thread ended with ${code}`));
    return started;
  };
  return {
    withStills: (outputs) => {
      if (outputs.every((output) => figureWithoutStill(output) === null)) return Promise.resolve(outputs);
      worker ??= start();
      const task = tasks++;
      const drawn = new Promise<readonly Output[]>((resolve, reject) => {
        const timer = setTimeout(() => fail(`it took more than ${limits.ms / 1000} s`), limits.ms);
        waiting.set(task, { resolve, reject, timer });
      });
      worker.postMessage({ task, outputs } satisfies StillTask);
      return drawn;
    },
    end: () => fail('its thread was ended'),
  };
}
