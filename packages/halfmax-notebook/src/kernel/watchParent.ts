import { rmSync } from 'node:fs';
import { Worker } from 'node:worker_threads';

const PERIOD_MS = 500;

/** Runs in a thread of its own, so that it works while a cell keeps the main thread busy. */
const threadSource = `
const { workerData } = require('node:worker_threads');
const { rmSync } = require('node:fs');
setInterval(() => {
  if (process.ppid === workerData.parent) return;
  try {
    if (workerData.temporary !== null) rmSync(workerData.temporary, { recursive: true, force: true });
  } catch {}
  process.kill(process.pid, 'SIGKILL');
}, ${PERIOD_MS});
`;

/**
 * Ends this process soon after its parent has gone, so that no kernel stays behind.
 *
 * @param temporary - folder to remove then, or null
 * @param inThread - watch from a thread; else from a timer, which a busy cell delays
 */
export function watchParent(temporary: string | null, inThread: boolean): void {
  const parent = process.ppid;
  if (inThread) {
    const options = { eval: true, workerData: { parent, temporary }, execArgv: [], stdout: false };
    new Worker(threadSource, options).unref();
    return;
  }
  setInterval(() => {
    if (process.ppid === parent) return;
    if (temporary !== null) rmSync(temporary, { recursive: true, force: true });
    process.kill(process.pid, 'SIGKILL');
  }, PERIOD_MS).unref();
}
