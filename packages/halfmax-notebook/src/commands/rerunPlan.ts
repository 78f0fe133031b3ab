import { existsSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import type { AskedFence } from '../fence/index.js';
import type { GivenInputs } from '../kernel/index.js';
import { readNotebook, refuse } from '../notebook/index.js';
import { type CommandWords, readOptions, wholeNumber } from './readOptions.js';

const PLACE = 'halfmax-notebook rerun';
const MOST_SEED = 2 ** 32 - 1;
/** A kernel that does nothing takes half of it. */
const LEAST_MEMORY_MB = 512;

/** What `rerun` is asked to do. */
export interface RerunPlan {
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

/**
 * Reads the words of the command; everything that it names is there and can be read.
 *
 * @param args - words after `rerun`
 * @returns what to do
 * @throws {BadInputError} a wrong word, notebook or session
 */
export function readRerunPlan(args: readonly string[]): RerunPlan {
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
