/** The code of the thread that draws stills: outputs come in, and go back with pictures. */
import { parentPort } from 'node:worker_threads';
import { withStill } from './addStills.js';
import type { StillTask } from './stillThread.js';

parentPort?.on('message', ({ task, outputs }: StillTask) => {
  parentPort?.postMessage({ task, outputs: outputs.map(withStill) } satisfies StillTask);
});
