/** The code of the thread that draws stills: outputs come in, and go back with pictures. */
import { parentPort } from 'node:worker_threads';
import type { Output } from '../notebook/index.js';
import { drawnOutput } from './addStills.js';
import type { StillAnswer } from './stillThread.js';

parentPort?.on('message', (outputs: readonly Output[]) => parentPort?.postMessage(answerTo(outputs)));

function answerTo(outputs: readonly Output[]): StillAnswer {
  try {
    return { outputs: outputs.map(drawnOutput) };
  } catch (fault) {
    return { fault: fault instanceof Error ? fault.message : String(fault) };
  }
}
