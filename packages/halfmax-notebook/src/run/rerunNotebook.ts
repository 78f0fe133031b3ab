import { randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { type FenceKind, kernelCommand } from '../fence/index.js';
import {
  endText,
  type GivenInputs,
  type KernelSettings,
  markOf,
  type RunningKernel,
  startKernel,
} from '../kernel/index.js';
import {
  type MarkdownCell,
  type Notebook,
  normaliseNotebook,
  type Output,
  readNotebook,
} from '../notebook/index.js';
import { STILLS_BY_RUNNER, STILLS_VARIABLE } from '../still/index.js';
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
  /**
   * Draws the stills of a cell's figures, for notebooks without a fence: those of others are drawn behind it.
   * @default the kernel draws them
   */
  readonly withStills?: (outputs: readonly Output[]) => Promise<readonly Output[]>;
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

/** A notebook whose kernel is starting. */
export interface PreparedRun {
  /** Runs the cells and ends the kernel. */
  readonly finish: (onCell: RerunOptions['onCell']) => Promise<RerunResult>;
}

/**
 * Starts a fresh kernel for a notebook, which may come up while another notebook runs.
 *
 * @param file - the notebook
 * @param asked - inputs, fence, limits
 * @returns what runs it
 * @throws {BadInputError} the file is no notebook
 */
export function prepareRun(file: string, asked: Omit<RerunOptions, 'onCell'>): PreparedRun {
  // The figures of a stranger are drawn behind the fence or not at all.
  const { withStills: _, ...fenced } = asked;
  const options = asked.fence === 'none' ? asked : fenced;
  const text = readFileSync(file, 'utf8');
  const source = readNotebook(text, file);
  const files = join(options.filesIn, `.files-${randomBytes(6).toString('hex')}`);
  mkdirSync(files);
  options.onFiles(files);
  const begin = performance.now();
  const starting = startFor(resolve(file), files, options).then((kernel) => ({
    kernel,
    startSeconds: (performance.now() - begin) / 1000,
  }));
  // Its fault is told when it is waited for.
  starting.catch(() => {});
  const finish: PreparedRun['finish'] = async (onCell) => {
    try {
      const { kernel, startSeconds } = await starting;
      const work = { source, digest: sha256(text), name: basename(file), kernel, startSeconds };
      const result = await runIn(work, { ...options, onCell });
      const isKept = readdirSync(files).length > 0 && result.failure === null;
      if (!isKept) rmSync(files, { recursive: true, force: true });
      return { ...result, files: isKept ? files : null };
    } catch (fault) {
      rmSync(files, { recursive: true, force: true });
      throw fault;
    }
  };
  return { finish };
}

function startFor(
  file: string,
  files: string,
  { given, seed, startedAt, fence, memoryMb, withStills }: Omit<RerunOptions, 'onCell'>,
): Promise<RunningKernel> {
  const settings: KernelSettings = {
    seed,
    startedAt,
    given: { ...given, out: files },
    watchThread: fence !== 'node',
    watchFiles: false,
    packagedAddonsOnly: fence !== 'none',
  };
  return startKernel(
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
          env: {
            ...markOf(place),
            ...(withStills !== undefined ? { [STILLS_VARIABLE]: STILLS_BY_RUNNER } : {}),
          },
        },
        memoryMb,
      ),
    START_MS,
  );
}

interface KernelWork {
  readonly source: Notebook;
  readonly digest: string;
  readonly name: string;
  readonly kernel: RunningKernel;
  readonly startSeconds: number;
}

async function runIn(
  { source, digest, name, kernel, startSeconds }: KernelWork,
  options: RerunOptions,
): Promise<Omit<RerunResult, 'files'>> {
  const { seed, startedAt } = options;
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
    source: { file: name, sha256: digest },
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
