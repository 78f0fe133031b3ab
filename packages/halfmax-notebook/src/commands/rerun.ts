import { readFileSync, rmSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { type ChosenFence, chooseFence } from '../fence/index.js';
import { endAllKernels } from '../kernel/index.js';
import { formatNotebook, readNotebook, refuse } from '../notebook/index.js';
import {
  type OutFolder,
  type PreparedRun,
  prepareRun,
  type RerunOptions,
  RUN_FILE,
  recordedRun,
  takeOutFolder,
} from '../run/index.js';
import { type StillThread, stillThread } from '../still/index.js';
import { isOwn } from './isOwn.js';
import { type RerunPlan, readRerunPlan } from './rerunPlan.js';
import { isSame, progressOf, tellOutcome } from './tellOutcome.js';
import type { Terminal } from './terminal.js';
import { namesFor, recordOf, runText, writeOutcome } from './writeOutcome.js';

const PLACE = 'halfmax-notebook rerun';
const FAILED = 4;
const DIFFERENT = 3;
const INTERRUPTED = 130;

/**
 * `halfmax-notebook rerun`: runs notebooks in fresh kernels and writes what came out.
 *
 * @param args - words after `rerun`
 * @param terminal - where to write
 * @returns exit code: 0 all ran, 3 `--check` found a difference, 4 a notebook failed
 * @throws {BadInputError} a wrong command, notebook, session or output folder
 */
export async function rerunCommand(args: readonly string[], terminal: Terminal): Promise<number> {
  const plan = readRerunPlan(args);
  const fence = chooseFence(plan.fence, plan.notebooks.every(isOwn));
  for (const sentence of fence.says) terminal.error(`${sentence}\n`);
  const names = plan.notebooks.flatMap((file) => Object.values(namesFor(file)));
  const out = plan.out === null ? null : takeOutFolder(plan.out, [...names, RUN_FILE]);
  const stills = stillThread({ ms: plan.cellMs, memoryMb: plan.memoryMb });
  const undo = (): void => {
    endAllKernels();
    stills.end();
    for (const folder of unplaced) rmSync(folder, { recursive: true, force: true });
    out?.release();
  };
  const unplaced = new Set<string>();
  const interrupted = (): void => {
    undo();
    terminal.error(`${terminal.showsProgress ? '\r\x1b[2K' : ''}halfmax-notebook: interrupted\n`);
    process.exit(INTERRUPTED);
  };
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  for (const signal of signals) process.on(signal, interrupted);
  try {
    return await runAll(plan, fence, out, unplaced, stills, terminal);
  } finally {
    undo();
    for (const signal of signals) process.off(signal, interrupted);
  }
}

async function runAll(
  plan: RerunPlan,
  fence: ChosenFence,
  out: OutFolder | null,
  unplaced: Set<string>,
  stills: StillThread,
  terminal: Terminal,
): Promise<number> {
  const began = new Date().toISOString();
  const waiting = [...plan.notebooks];
  const records: Record<string, unknown>[] = [];
  const wrote = new Set([...(out?.earlier ?? [])].filter((name) => name !== RUN_FILE));
  const asked = new Set<string>();
  let failed = 0;
  let different = 0;

  // On a core that is free the next kernel comes up while a notebook runs.
  const isAhead = plan.jobs < availableParallelism();
  const take = (): { file: string; run: PreparedRun } | null => {
    const file = waiting.shift();
    return file === undefined
      ? null
      : { file, run: prepareRun(file, optionsFor(plan, file, fence, out, unplaced, stills)) };
  };
  const work = async (): Promise<void> => {
    let next = take();
    while (next !== null) {
      const { file, run } = next;
      next = isAhead ? take() : null;
      const result = await run.finish(progressOf(file, terminal));
      for (const name of result.used) asked.add(name);
      if (result.files !== null) unplaced.add(result.files);
      const text = formatNotebook(result.notebook);
      if (result.failure !== null) failed++;
      records.push(recordOf(file, result, text));
      if (out !== null)
        writeOutcome(out, file, result, text, () => runText(plan, fence, began, records, wrote), wrote);
      if (result.files !== null) unplaced.delete(result.files);
      tellOutcome(file, result, out, terminal);
      if (plan.check && result.failure === null && !isSame(file, result.notebook, terminal)) different++;
      next ??= take();
    }
  };
  await Promise.all(Array.from({ length: Math.min(plan.jobs, waiting.length) }, work));
  for (const name of Object.keys(plan.given.others)) {
    if (failed === 0 && !asked.has(name))
      refuse(PLACE, `--input ${name}`, 'no notebook asked for it', 'correct the name or leave it out');
  }
  return failed > 0 ? FAILED : different > 0 ? DIFFERENT : 0;
}

function optionsFor(
  plan: RerunPlan,
  file: string,
  fence: ChosenFence,
  out: OutFolder | null,
  unplaced: Set<string>,
  { withStills }: StillThread,
): Omit<RerunOptions, 'onCell'> {
  const earlier = plan.check ? recordedRun(readNotebook(readFileSync(file, 'utf8'), file)) : null;
  return {
    given: { ...earlier?.given, ...plan.given, others: { ...earlier?.given.others, ...plan.given.others } },
    seed: plan.seed ?? earlier?.seed ?? 1,
    startedAt: plan.startedAt ?? earlier?.startedAt ?? new Date(0).toISOString(),
    fence: fence.kind,
    cellMs: plan.cellMs,
    memoryMb: plan.memoryMb,
    filesIn: out?.folder ?? tmpdir(),
    onFiles: (folder) => unplaced.add(folder),
    withStills,
  };
}
