import { existsSync, readFileSync, realpathSync, rmSync, statSync } from 'node:fs';
import { availableParallelism, homedir, tmpdir } from 'node:os';
import { basename, join, resolve, sep } from 'node:path';
import { writeResult } from 'halfmax/session';
import { type AskedFence, type ChosenFence, chooseFence, limitsAllMemory } from '../fence/index.js';
import { endAllKernels, type GivenInputs } from '../kernel/index.js';
import {
  compareNotebooks,
  formatComparison,
  formatNotebook,
  type Notebook,
  readNotebook,
  refuse,
} from '../notebook/index.js';
import {
  type OutFolder,
  type PreparedRun,
  packageRoot,
  placeFiles,
  prepareRun,
  type RerunOptions,
  type RerunResult,
  RUN_FILE,
  RUN_FORMAT,
  type RunFailure,
  recordedRun,
  sha256,
  takeOutFolder,
} from '../run/index.js';
import { type CommandWords, readOptions, wholeNumber } from './readOptions.js';
import type { Terminal } from './terminal.js';

const PLACE = 'halfmax-notebook rerun';
const FAILED = 4;
const DIFFERENT = 3;
const INTERRUPTED = 130;
const MOST_SEED = 2 ** 32 - 1;
/** A kernel that does nothing takes half of it. */
const LEAST_MEMORY_MB = 512;

/**
 * `halfmax-notebook rerun`: runs notebooks in fresh kernels and writes what came out.
 *
 * @param args - words after `rerun`
 * @param terminal - where to write
 * @returns exit code: 0 all ran, 3 `--check` found a difference, 4 a notebook failed
 * @throws {BadInputError} a wrong command, notebook, session or output folder
 */
export async function rerunCommand(args: readonly string[], terminal: Terminal): Promise<number> {
  const plan = readPlan(args);
  const fence = chooseFence(plan.fence, plan.notebooks.every(isOwn));
  for (const sentence of fence.says) terminal.error(`${sentence}\n`);
  const names = plan.notebooks.flatMap((file) => Object.values(namesFor(file)));
  const out = plan.out === null ? null : takeOutFolder(plan.out, [...names, RUN_FILE]);
  const undo = (): void => {
    endAllKernels();
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
    return await runAll(plan, fence, out, unplaced, terminal);
  } finally {
    undo();
    for (const signal of signals) process.off(signal, interrupted);
  }
}

interface Plan {
  readonly notebooks: readonly string[];
  readonly out: string | null;
  readonly given: GivenInputs;
  readonly seed: number | undefined;
  readonly startedAt: string | undefined;
  readonly jobs: number;
  readonly cellMs: number;
  readonly memoryMb: number;
  readonly fence: AskedFence;
  readonly check: boolean;
}

function readPlan(args: readonly string[]): Plan {
  const words = readOptions(
    args,
    {
      session: 'text',
      out: 'text',
      seed: 'text',
      draws: 'text',
      input: 'list',
      start: 'text',
      jobs: 'text',
      timeout: 'text',
      memory: 'text',
      fence: 'text',
      check: 'flag',
    },
    'rerun',
  );
  if (words.positional.length === 0)
    refuse(PLACE, 'NOTEBOOK', 'no notebook given', 'name one or more .ipynb files');
  const text = (name: string): string | undefined => words.options.get(name)?.[0];
  const check = words.options.has('check');
  const out = text('out') ?? null;
  if (out === null && !check) refuse(PLACE, '--out', 'no folder for the result given', 'write --out DIR');
  const session = text('session');
  const folder = session === undefined ? undefined : sessionFolder(session);
  const seed = wholeNumber(words, 'seed', 0, MOST_SEED, 'rerun');
  const draws = wholeNumber(words, 'draws', 1, 1e9, 'rerun');
  const start = text('start');
  const fence = text('fence') ?? 'auto';
  if (!isFence(fence)) refuse(PLACE, '--fence', `"${fence}" is no fence`, 'write auto, bwrap, node or none');
  return {
    out: out === null ? null : resolve(out),
    given: {
      ...(folder === undefined ? {} : { session: folder }),
      ...(seed === undefined ? {} : { seed }),
      ...(draws === undefined ? {} : { draws }),
      others: otherInputs(words),
    },
    seed,
    startedAt: start === undefined ? recordedDay(folder) : startTime(start),
    jobs: wholeNumber(words, 'jobs', 1, 16, 'rerun') ?? 1,
    cellMs: 1000 * (wholeNumber(words, 'timeout', 1, 86_400, 'rerun') ?? 600),
    memoryMb: wholeNumber(words, 'memory', LEAST_MEMORY_MB, 1_000_000, 'rerun') ?? 4096,
    fence,
    check,
    notebooks: notebookFiles(words.positional),
  };
}

function notebookFiles(words: readonly string[]): string[] {
  const seen = new Map<string, string>();
  return words.map((word) => {
    if (!existsSync(word)) refuse(word, '', 'there is no such file', 'name an .ipynb file');
    if (!statSync(word).isFile()) refuse(word, '', 'is not a file', 'name an .ipynb file');
    if (!word.endsWith('.ipynb')) refuse(word, '', 'is not named as a notebook', 'name an .ipynb file');
    if (word.endsWith('.failed.ipynb'))
      refuse(word, '', 'is what a failed run left', 'name the notebook that was run');
    const other = seen.get(basename(word).toLowerCase());
    if (other !== undefined)
      refuse(word, '', `has the same name as ${other}`, 'run notebooks of one name into different folders');
    seen.set(basename(word).toLowerCase(), word);
    // Read now, so that a broken file is told before anything runs.
    readNotebook(readFileSync(word, 'utf8'), word);
    return word;
  });
}

function sessionFolder(session: string): string {
  if (!existsSync(session)) refuse(session, '', 'there is no such folder', 'name a session folder');
  if (!existsSync(join(session, 'session.json')))
    refuse(session, '', 'holds no session.json', 'name the folder of a bench session');
  return realpathSync(session);
}

function otherInputs(words: CommandWords): Record<string, string> {
  const found: Record<string, string> = {};
  for (const text of words.options.get('input') ?? []) {
    const [, name, value] = /^([A-Za-z_]\w*)=(.*)$/s.exec(text) ?? [];
    if (name === undefined || value === undefined)
      refuse(PLACE, '--input', `"${text}" is not NAME=VALUE`, 'write such as --input filter=ha-7');
    if (['session', 'seed', 'draws', 'out'].includes(name))
      refuse(PLACE, '--input', `${name} has an option of its own`, `write --${name}`);
    if (Object.hasOwn(found, name)) refuse(PLACE, '--input', `${name} is given twice`, 'give it once');
    found[name] = value;
  }
  return found;
}

function startTime(text: string): string {
  if (text === 'now') return new Date().toISOString();
  const ms = /^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2}))?$/.test(text)
    ? Date.parse(text)
    : Number.NaN;
  if (!Number.isFinite(ms))
    refuse(PLACE, '--start', `"${text}" is no time`, 'write such as 2025-03-14T21:00:00Z');
  return new Date(ms).toISOString();
}

/** The day that the session states for itself; the notebook, not this command, says what is wrong with a session. */
function recordedDay(session: string | undefined): string | undefined {
  if (session === undefined) return undefined;
  try {
    const { recorded } = JSON.parse(readFileSync(join(session, 'session.json'), 'utf8')) as {
      recorded?: unknown;
    };
    const ms = typeof recorded === 'string' ? Date.parse(recorded) : Number.NaN;
    return Number.isFinite(ms) ? new Date(ms).toISOString() : undefined;
  } catch {
    return undefined;
  }
}

function isFence(text: string): text is AskedFence {
  return text === 'auto' || text === 'bwrap' || text === 'node' || text === 'none';
}

/** Of the folder that the command is given in, or of the checkout that this package is used from. */
function isOwn(notebook: string): boolean {
  const file = realpathSync(notebook);
  const home = realpathSync(homedir()) + sep;
  return [realpathSync(process.cwd()), packageRoot()].some((folder) => {
    const inside = folder.endsWith(sep) ? folder : folder + sep;
    // A home folder, or one above it, is no folder of work: what was downloaded lies in it too.
    return !home.startsWith(inside) && file.startsWith(inside);
  });
}

function namesFor(notebook: string): { done: string; failed: string; files: string } {
  const stem = basename(notebook, '.ipynb');
  return { done: `${stem}.ipynb`, failed: `${stem}.failed.ipynb`, files: `${stem}.files` };
}

async function runAll(
  plan: Plan,
  fence: ChosenFence,
  out: OutFolder | null,
  unplaced: Set<string>,
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
      : { file, run: prepareRun(file, optionsFor(plan, file, fence, out, unplaced)) };
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
        write(out, file, result, text, () => runText(plan, fence, began, records, wrote), wrote);
      if (result.files !== null) unplaced.delete(result.files);
      report(file, result, out, terminal);
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
  plan: Plan,
  file: string,
  fence: ChosenFence,
  out: OutFolder | null,
  unplaced: Set<string>,
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
  };
}

/** Says how far a notebook has come. */
function progressOf(file: string, terminal: Terminal): RerunOptions['onCell'] {
  const name = basename(file);
  const { cells } = readNotebook(readFileSync(file, 'utf8'), file);
  const count = cells.filter(({ cell_type, source }) => cell_type === 'code' && source.trim() !== '').length;
  const said = (text: string): void =>
    terminal.error(terminal.showsProgress ? `\r\x1b[2K${text}` : `${text}\n`);
  said(`${name}: starting a kernel`);
  return (cell, id, seconds) => said(`${name}: cell ${cell} of ${count} (${id}) ${seconds.toFixed(1)} s`);
}

function write(
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

function recordOf(file: string, result: RerunResult, text: string): Record<string, unknown> {
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

function runText(
  plan: Plan,
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

function report(file: string, { failure }: RerunResult, out: OutFolder | null, terminal: Terminal): void {
  const clear = terminal.showsProgress ? '\r\x1b[2K' : '';
  const { done, failed } = namesFor(file);
  const name = failure === null ? done : failed;
  const where = out === null ? '' : ` ${join(out.folder, name)}`;
  if (failure === null) terminal.error(`${clear}${basename(file)}: done${where}\n`);
  else terminal.error(`${clear}${failureText(file, failure)}\n${clear}${basename(file)}: failed${where}\n`);
}

function failureText(file: string, { cell, id, line, name, message }: RunFailure): string {
  const place = cell === null ? '' : ` cell ${cell} (${id})${line === null ? '' : `, line ${line}`}:`;
  return `${file}:${place} ${name}: ${message}`.replace(/\s*[\r\n]+\s*/g, ' ');
}

/** Whether a notebook ran as its file says it did; what differs goes to the terminal. */
function isSame(file: string, executed: Notebook, terminal: Terminal): boolean {
  const held = readNotebook(readFileSync(file, 'utf8'), file);
  const ran = held.cells.some((cell) => cell.cell_type === 'code' && cell.execution_count !== null);
  if (!ran) refuse(file, '', 'holds no outputs to compare with', 'run it without --check first');
  const comparison = compareNotebooks(held, executed);
  terminal.out(
    comparison.isSame
      ? `${file}: the same\n`
      : `${file}: different\n${formatComparison(comparison, file, 'run anew')}`,
  );
  return comparison.isSame;
}
