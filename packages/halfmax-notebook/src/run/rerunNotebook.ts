import { randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { type FenceKind, kernelCommand } from '../fence/index.js';
import { endText, type GivenInputs, type KernelSettings, markOf, startKernel } from '../kernel/index.js';
import { type MarkdownCell, type Notebook, normaliseNotebook, readNotebook } from '../notebook/index.js';
import { type ExecutedCells, executeCells, type RunFailure } from './executeCells.js';
import { runTools, sha256 } from './provenance.js';

/** How to run a notebook. */
export interface RerunOptions {
  readonly given: GivenInputs;
  /** Seed of Math.random. */
  readonly seed: number;
  /** ISO time that the notebook's clock shows. */
  readonly startedAt: string;
  readonly fence: FenceKind;
  readonly cellMs: number;
  readonly memoryMb: number;
  /** Folder in which a folder for the notebook's own files may be made. */
  readonly filesIn: string;
  /** Told of that folder, so that it can be removed if the run is broken off. */
  readonly onFiles: (folder: string) => void;
  readonly onCell: (cell: number, id: string, seconds: number) => void;
}

/** A notebook that was run. */
export interface RerunResult {
  /** Executed, as far as it went, with what it was run with in its metadata. */
  readonly notebook: Notebook;
  readonly failure: RunFailure | null;
  /** Folder with files that the notebook wrote, or null where it wrote none; to be moved to its place. */
  readonly files: string | null;
  readonly startSeconds: number;
  readonly cellSeconds: readonly number[];
  /** Inputs given from outside that the notebook asked for. */
  readonly used: readonly string[];
}

/** Most time that the start of a kernel may take: a busy machine is slow. */
const START_MS = 120_000;
const INFO_MS = 5000;

/**
 * Runs a notebook in a fresh kernel.
 *
 * @param file - the notebook
 * @param options - inputs, fence, limits
 * @returns the executed notebook, whether it failed or not
 * @throws {BadInputError} the file is no notebook
 */
export async function rerunNotebook(file: string, options: RerunOptions): Promise<RerunResult> {
  const source = readNotebook(readFileSync(file, 'utf8'), file);
  const files = join(options.filesIn, `.files-${randomBytes(6).toString('hex')}`);
  mkdirSync(files);
  options.onFiles(files);
  try {
    const result = await runIn(files, resolve(file), source, options);
    const isEmpty = readdirSync(files).length === 0;
    if (isEmpty || result.failure !== null) rmSync(files, { recursive: true, force: true });
    return { ...result, files: isEmpty || result.failure !== null ? null : files };
  } catch (fault) {
    rmSync(files, { recursive: true, force: true });
    throw fault;
  }
}

async function runIn(
  files: string,
  file: string,
  source: Notebook,
  options: RerunOptions,
): Promise<Omit<RerunResult, 'files'>> {
  const { seed, startedAt, fence, memoryMb } = options;
  const given: GivenInputs = { ...options.given, out: files };
  const settings: KernelSettings = {
    seed,
    startedAt,
    given,
    watchThread: fence !== 'node',
    watchFiles: false,
    packagedAddonsOnly: fence !== 'none',
  };
  const begin = performance.now();
  const kernel = await startKernel(
    settings,
    (place) =>
      kernelCommand(
        fence,
        {
          cwd: dirname(file),
          notebook: file,
          session: given.session ?? null,
          out: files,
          connectionFolder: place.folder,
          connectionFile: place.file,
          env: markOf(place),
        },
        memoryMb,
      ),
    START_MS,
  );
  const startSeconds = (performance.now() - begin) / 1000;
  let executed: ExecutedCells;
  let report: KernelReport | null;
  try {
    executed = await executeCells(source, kernel, options);
    const canAnswer = executed.failure === null || executed.failure.kind === 'error';
    report = canAnswer ? await askReport(kernel.client.info()) : null;
    if (executed.failure === null && report === null) {
      const end = await Promise.race([kernel.ended, new Promise<null>((r) => setTimeout(r, 100, null))]);
      const message = `the kernel did not answer at the end${end === null ? '' : ` (${endText(end)})`}`;
      executed = { ...executed, failure: outside('kernel ended', 'KernelEnded', message) };
    }
  } finally {
    await kernel.stop();
  }
  const [late] = report?.lateFaults ?? [];
  const failure =
    executed.failure ??
    (late === undefined ? null : outside('error', 'Late', `after its cell had ended: ${late}`));
  const used = report?.used ?? {};
  const run = {
    format: 'halfmax-notebook-run/1',
    status: failure === null ? 'complete' : 'failed',
    ...(failure === null ? {} : { failure }),
    source: { file: basename(file), sha256: sha256(readFileSync(file)) },
    inputs: used,
    clock: startedAt,
    randomSeed: seed,
    timeZone: report?.timeZone ?? 'UTC',
    locale: report?.locale ?? 'en-US',
    tools: runTools(),
    filesRead: report?.files ?? [],
  };
  const { halfmax: _, language_info, ...kept } = source.metadata;
  const notebook = normaliseNotebook({
    nbformat: 4,
    nbformat_minor: 5,
    metadata: {
      ...kept,
      kernelspec: kept['kernelspec'] ?? {
        display_name: 'TypeScript (halfmax)',
        language: 'typescript',
        name: 'tslab',
      },
      language_info: report?.language ?? language_info ?? { name: 'typescript' },
      halfmax: run,
    },
    cells: failure === null ? executed.cells : [failedCell(failure, source), ...executed.cells],
  });
  return {
    notebook,
    failure,
    startSeconds,
    cellSeconds: executed.seconds,
    used: Object.entries(used).flatMap(([name, { from }]) => (from === 'command' ? [name] : [])),
  };
}

function outside(kind: RunFailure['kind'], name: string, message: string): RunFailure {
  return { index: null, cell: null, id: '', line: null, kind, name, message };
}

/** The first thing that a reader of a failed run sees. */
function failedCell(failure: RunFailure, source: Notebook): MarkdownCell {
  const where = failure.cell === null ? '' : ` in cell ${failure.cell} (${failure.id})`;
  const ids = new Set(source.cells.map(({ id }) => id));
  let id = 'run-failed';
  while (ids.has(id)) id += '-';
  const text = `# This run failed${where}\n\nWhat follows is what it had come to by then. It is no result.`;
  return { cell_type: 'markdown', id, metadata: {}, source: text };
}

interface KernelReport {
  readonly files: readonly object[];
  readonly used: Readonly<Record<string, { value: string | number | boolean; from: string }>>;
  readonly lateFaults: readonly string[];
  readonly locale: string;
  readonly timeZone: string;
  readonly language: object;
}

async function askReport(info: Promise<Readonly<Record<string, unknown>>>): Promise<KernelReport | null> {
  const answer = await Promise.race([info, new Promise<null>((r) => setTimeout(r, INFO_MS, null).unref())]);
  const report = answer?.['halfmax'];
  if (typeof report !== 'object' || report === null) return null;
  return { ...(report as KernelReport), language: answer?.['language_info'] as object };
}

/**
 * Moves a folder of files to its place, in place of an earlier one.
 *
 * @param from - the folder, or null: then only the earlier one is removed
 * @param to - its place
 */
export function placeFiles(from: string | null, to: string): void {
  if (existsSync(to)) rmSync(to, { recursive: true, force: true });
  if (from !== null) renameSync(from, to);
}
