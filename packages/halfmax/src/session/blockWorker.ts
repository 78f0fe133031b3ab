import { parentPort, workerData } from 'node:worker_threads';
import { type BlockMessage, type BlockTask, makeBlocks } from './makeBlocks.js';

// Nothing is done where the file is only read for its types.
if (parentPort !== null) {
  const port = parentPort;
  await makeBlocks(workerData as BlockTask, (block, values) => {
    port.postMessage(
      { block, values } satisfies BlockMessage,
      values.map((value) => value.buffer as ArrayBuffer),
    );
  });
}
