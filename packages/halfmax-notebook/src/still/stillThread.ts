import { Worker } from 'node:worker_threads';
import type { Output } from '../notebook/index.js';
import { figureWithoutStill } from './addStills.js';

/** A thread that draws stills for all notebooks of a command: the document and Plotly are loaded once, beside the kernels. */
export interface StillThread {
  /** The outputs with a still picture beside each figure that has none and is of a kind that can be drawn. */
  readonly withStills: (outputs: readonly Output[]) => Promise<readonly Output[]>;
  /** Ends the thread, drawn or not; nothing is drawn after that. */
  readonly end: () => void;
}

/** Limits of the thread. */
export interface StillLimits {
  /** Most milliseconds for the outputs of one call. */
  readonly ms: number;
  readonly memoryMb: number;
}

/** What the thread answers: the outputs with their pictures, or why there are none. */
export type StillAnswer = { readonly outputs: readonly Output[] } | { readonly fault: string };

interface Task {
  readonly outputs: readonly Output[];
  readonly resolve: (outputs: readonly Output[]) => void;
  readonly reject: (fault: Error) => void;
}

const workerFile: URL = new URL('./stillWorker.js', import.meta.url);

/**
 * A thread for stills; it starts with the first figure. Calls are served one after the other, and a fault of one is that
 * of no other.
 *
 * @param limits - what a drawing may take
 * @returns the thread; end it
 */
export function stillThread(limits: StillLimits): StillThread {
  const waiting: Task[] = [];
  let worker: Worker | null = null;
  let current: Task | null = null;
  let timer: NodeJS.Timeout | undefined;
  let isEnded = false;

  const answer = (given: StillAnswer): void => {
    clearTimeout(timer);
    const task = current;
    current = null;
    if ('fault' in given) task?.reject(new Error(given.fault));
    else task?.resolve(given.outputs);
    next();
  };
  /** Ends the thread with the call that it serves; the next call starts another. */
  const stop = (why: string): void => {
    void worker?.terminate();
    worker = null;
    answer({ fault: why });
  };
  const start = (): Worker => {
    const started = new Worker(workerFile, { resourceLimits: { maxOldGenerationSizeMb: limits.memoryMb } });
    started.on('message', (given: StillAnswer) => {
      if (worker === started) answer(given);
    });
    started.on('error', (fault) => {
      if (worker === started) stop(fault.message);
    });
    started.on('exit', (code) => {
      if (worker === started) stop(`its thread ended with ${code}`);
    });
    return started;
  };
  const next = (): void => {
    if (current !== null) return;
    const task = waiting.shift();
    if (task === undefined) return;
    if (isEnded) {
      task.reject(new Error('its thread was ended'));
      next();
      return;
    }
    current = task;
    worker ??= start();
    timer = setTimeout(() => stop(`it took more than ${limits.ms / 1000} s`), limits.ms);
    worker.postMessage(task.outputs);
  };
  return {
    withStills: (outputs) =>
      outputs.every((output) => figureWithoutStill(output) === null)
        ? Promise.resolve(outputs)
        : new Promise((resolve, reject) => {
            waiting.push({ outputs, resolve, reject });
            next();
          }),
    end: () => {
      isEnded = true;
      stop('its thread was ended');
    },
  };
}
