import { existsSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { refuse } from '../errors.js';
import type { MeasuredSession, Provenance } from '../measure/index.js';
import { curveText, measurementText } from './fileText.js';
import { measureInThreads, workerFile } from './measureInThreads.js';
import { checkOutFolder, earlierCurves } from './outFolder.js';
import { readOptions, wholeNumber } from './readOptions.js';
import { progressLine, type Terminal } from './terminal.js';
import { packageVersion } from './version.js';

const DEFAULT_SEED = 1;

/**
 * `halfmax measure`: measures a session and writes the result.
 *
 * @param args - words after `measure`
 * @param terminal - where to write
 * @returns exit code 0
 * @throws {BadInputError} a wrong command, session or output folder; nothing is written then
 */
export async function measureCommand(args: readonly string[], terminal: Terminal): Promise<number> {
  const words = readOptions(
    args,
    { out: 'text', draws: 'text', seed: 'text', threads: 'text', quote: 'flag', json: 'flag' },
    'measure',
  );
  const [folder, ...surplus] = words.positional;
  const place = 'halfmax measure';
  if (folder === undefined)
    refuse(place, 'SESSION', 'no session folder given', 'name the folder that holds session.json');
  if (surplus.length > 0)
    refuse(place, surplus[0]!, 'one session at a time', 'measure each session with a command of its own');
  const out = words.options.get('out');
  if (out === undefined || out === '')
    refuse(place, '--out', 'no folder for the result given', 'write --out DIR');
  checkOutFolder(out, folder);
  const seed = wholeNumber(words, 'seed', 0, 2 ** 32 - 1, 'measure') ?? DEFAULT_SEED;
  const draws = wholeNumber(words, 'draws', 1000, 10_000_000, 'measure') ?? 0;

  const asked = wholeNumber(words, 'threads', 1, MOST_THREADS, 'measure');
  const useful = existsSync(workerFile) ? jobsNamed(folder) : 1;
  const threads = Math.min(asked ?? availableParallelism(), useful);

  const progress = progressLine(terminal);
  const interrupted = (): void => {
    progress.clear();
    process.exit(INTERRUPTED);
  };
  const provenance = { package: 'halfmax', version: packageVersion(), node: process.version, seed, draws };
  try {
    // With workers this thread is free to hear an interrupt; without, the system ends it, but never while it writes.
    if (threads > 1) process.on('SIGINT', interrupted);
    let steps = 0;
    const onStep = (step: string): void => {
      progress.show(step);
      // What comes after is loaded while the workers measure, but not while they start.
      if (threads > 1 && ++steps === 2) void loadWriting();
    };
    const work = { folder, provenance, threads, onStep };
    const { measurement, curves } = await (threads > 1 ? measureInThreads(work) : measureHere(work));
    if (threads === 1) process.on('SIGINT', interrupted);
    const [{ writeResult }, { measurementTable }] = await loadWriting();
    checkOutFolder(
      out,
      folder,
      measurement.provenance.inputs.map(({ file }) => file),
    );
    const text = measurementText(measurement);
    const files = [
      { name: 'measurement.json', content: text },
      ...curves.map((curve) => ({ name: curve.file, content: curveText(curve) })),
    ];
    const isStale = (name: string): boolean =>
      !files.some((file) => file.name.toLowerCase() === name.toLowerCase());
    writeResult(out, files, earlierCurves(out).filter(isStale));
    progress.clear();
    const quotes = words.options.has('quote');
    terminal.out(words.options.has('json') ? text : measurementTable(measurement, { out, quotes }));
    return 0;
  } catch (fault) {
    progress.clear();
    throw fault;
  } finally {
    process.off('SIGINT', interrupted);
  }
}

/** What writes and shows a result; loaded once, however often it is asked for. */
const loadWriting = () => Promise.all([import('../session/index.js'), import('./measurementTable.js')]);

/** More threads than this are a slip of the hand. */
const MOST_THREADS = 64;
/** What a shell says of a program that Ctrl-C has ended: 128 and the number of the signal. */
const INTERRUPTED = 130;

/**
 * How many filters a session names, its stars counted as one more: further threads would have nothing to do. A faulty
 * session is read by one thread.
 */
function jobsNamed(folder: string): number {
  try {
    const manifest: unknown = JSON.parse(readFileSync(join(folder, 'session.json'), 'utf8'));
    const { filters, stars } = (manifest ?? {}) as { filters?: unknown; stars?: unknown };
    const count = (list: unknown): number => (Array.isArray(list) ? list.length : 0);
    return Math.max(1, count(filters) + Math.min(1, count(stars)));
  } catch {
    return 1;
  }
}

/** Measures in this thread alone. */
async function measureHere(work: {
  readonly folder: string;
  readonly provenance: Omit<Provenance, 'inputs'>;
  readonly onStep: (step: string) => void;
}): Promise<MeasuredSession> {
  const [{ measureSession }, { readSession }] = await Promise.all([
    import('../measure/index.js'),
    import('../session/index.js'),
  ]);
  work.onStep('read the session');
  return measureSession(readSession(work.folder), { provenance: work.provenance, onStep: work.onStep });
}
