import { rmSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { basename, join } from 'node:path';
import { writeResult } from 'halfmax/session';
import { type ChosenFence, limitsAllMemory } from '../fence/index.js';
import { type OutFolder, placeFiles, type RerunResult, RUN_FILE, RUN_FORMAT, sha256 } from '../run/index.js';
import type { RerunPlan } from './rerunPlan.js';

/**
 * The names in the out folder that belong to a notebook.
 *
 * @param notebook - its file
 * @returns of the result, of what a failed run leaves, of the folder of files that it wrote
 */
export function namesFor(notebook: string): { done: string; failed: string; files: string } {
  const stem = basename(notebook, '.ipynb');
  return { done: `${stem}.ipynb`, failed: `${stem}.failed.ipynb`, files: `${stem}.files` };
}

/**
 * Puts what came out of a notebook into the out folder, and the record of the run so far beside it.
 *
 * @param out - the folder
 * @param file - the notebook
 * @param result - what came out
 * @param text - the executed notebook
 * @param runFile - gives the record
 * @param wrote - names written so far; changed
 */
export function writeOutcome(
  { folder, earlier }: OutFolder,
  file: string,
  result: RerunResult,
  text: string,
  runFile: () => string,
  wrote: Set<string>,
): void {
  const { done, failed, files } = namesFor(file);
  const isDone = result.failure === null;
  const [name, other] = isDone ? [done, failed] : [failed, done];
  wrote.add(name);
  wrote.delete(other);
  if (result.files === null) wrote.delete(files);
  else wrote.add(files);
  writeResult(folder, [
    { name, content: text },
    { name: RUN_FILE, content: runFile() },
  ]);
  // An outcome of an earlier run beside the one of this run would be taken for it.
  if (earlier.has(other)) rmSync(join(folder, other), { force: true });
  if (earlier.has(files) || result.files !== null) placeFiles(result.files, join(folder, files));
}

/** One notebook in the record of a run. */
export function recordOf(file: string, result: RerunResult, text: string): Record<string, unknown> {
  const { failure, startSeconds, cellSeconds } = result;
  const { done, failed } = namesFor(file);
  return {
    notebook: basename(file),
    result: failure === null ? done : failed,
    status: failure === null ? 'complete' : 'failed',
    ...(failure === null ? {} : { failure }),
    sha256: sha256(text),
    kernelStartSeconds: Number(startSeconds.toFixed(3)),
    cellSeconds: cellSeconds.map((value) => Number(value.toFixed(3))),
  };
}

/** The record of a run, as the text of its file. */
export function runText(
  plan: RerunPlan,
  { kind, says }: ChosenFence,
  began: string,
  records: readonly Record<string, unknown>[],
  wrote: ReadonlySet<string>,
): string {
  const run = {
    format: RUN_FORMAT,
    began,
    ended: new Date().toISOString(),
    fence: { kind, says },
    memory: { limitMb: plan.memoryMb, holds: limitsAllMemory() ? 'all memory' : 'the heap of Node alone' },
    jobs: plan.jobs,
    cores: availableParallelism(),
    notebooks: [...records].sort((a, b) => (String(a['notebook']) < String(b['notebook']) ? -1 : 1)),
    wrote: [...wrote].sort(),
  };
  return `${JSON.stringify(run, null, 1)}\n`;
}
