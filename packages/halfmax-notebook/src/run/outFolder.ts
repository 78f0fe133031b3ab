import {
  closeSync,
  existsSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import { refuse } from '../notebook/index.js';

/** What a run writes about itself: real times, the machine, the fence. */
export const RUN_FILE = 'run.json';
export const RUN_FORMAT = 'halfmax-notebook-run/1';
/** Folders for the files of a notebook, while it runs. */
const UNPLACED = /^\.files-[0-9a-f]{12}$/;
const LOCK_FILE = '.halfmax-notebook.lock';

/** An out folder that this process alone writes to. */
export interface OutFolder {
  readonly folder: string;
  /** Names that an earlier run wrote here: they may be replaced. */
  readonly earlier: ReadonlySet<string>;
  /** Gives it back: the lock goes, and the folder too where this run made it and left it empty. */
  readonly release: () => void;
}

/**
 * Takes an out folder for one run.
 *
 * @param folder - made if it is not there
 * @param names - files and folders that the run may write
 * @returns the folder; release it
 * @throws {BadInputError} it is no folder, holds something else, or another run is at it
 */
export function takeOutFolder(folder: string, names: readonly string[]): OutFolder {
  if (existsSync(folder) && !statSync(folder).isDirectory())
    refuse(folder, '', 'is a file, not a folder', 'give another --out');
  const isNew = !existsSync(folder);
  const lock = join(folder, LOCK_FILE);
  if (!isNew) refuseLive(folder, lock);
  const earlier = isNew ? new Set<string>() : earlierNames(folder, names);
  const [made] = isNew ? [makeFolder(folder)] : [undefined];
  try {
    takeLock(folder, lock);
    // What a run left that was killed.
    for (const name of readdirSync(folder)) {
      if (UNPLACED.test(name)) rmSync(join(folder, name), { recursive: true, force: true });
    }
  } catch (fault) {
    if (made !== undefined) removeEmpty(folder, made);
    throw fault;
  }
  return {
    folder,
    earlier,
    release: () => {
      rmSync(lock, { force: true });
      if (made !== undefined) removeEmpty(folder, made);
    },
  };
}

function makeFolder(folder: string): string | undefined {
  try {
    return mkdirSync(folder, { recursive: true });
  } catch (fault) {
    return refuse(
      folder,
      '',
      `cannot be made: ${reasonOf(fault)}`,
      'check its parent, or give another --out',
    );
  }
}

/** Removes the folder and those above it that were made for it, as long as they are empty. */
function removeEmpty(folder: string, first: string): void {
  try {
    for (let at = folder; at.startsWith(first); at = join(at, '..')) rmdirSync(at);
  } catch {
    // Something is in it: it stays.
  }
}

function earlierNames(folder: string, names: readonly string[]): Set<string> {
  const there = readdirSync(folder).filter((name) => name !== LOCK_FILE && !UNPLACED.test(name));
  const record = join(folder, RUN_FILE);
  const wrote = existsSync(record) ? namesIn(record) : null;
  if (wrote === null) {
    const [first] = there;
    if (first !== undefined)
      refuse(folder, first, 'the folder holds something that is not of a run', 'give an empty --out');
    return new Set();
  }
  for (const name of names) {
    if (there.includes(name) && !wrote.has(name))
      refuse(
        join(folder, name),
        '',
        'is in the way and not of an earlier run',
        'move it, or give another --out',
      );
  }
  return wrote;
}

function namesIn(record: string): Set<string> | null {
  try {
    const { format, wrote } = JSON.parse(readFileSync(record, 'utf8')) as {
      format?: unknown;
      wrote?: unknown;
    };
    if (format !== RUN_FORMAT || !Array.isArray(wrote)) return null;
    return new Set([RUN_FILE, ...wrote.map(String)]);
  } catch {
    return null;
  }
}

interface Holder {
  readonly pid: number;
  readonly started: string;
}

function takeLock(folder: string, lock: string): void {
  for (let attempt = 0; attempt < 3; attempt++) {
    try {
      const handle = openSync(lock, 'wx');
      try {
        writeSync(handle, JSON.stringify({ pid: process.pid, started: startOf(process.pid) }));
      } finally {
        closeSync(handle);
      }
      return;
    } catch (fault) {
      if ((fault as NodeJS.ErrnoException).code !== 'EEXIST') {
        rmSync(lock, { force: true });
        refuse(
          folder,
          '',
          `cannot be written to: ${reasonOf(fault)}`,
          'check the folder, or give another --out',
        );
      }
    }
    refuseLive(folder, lock);
    // Its run is gone. Only one of those that see this can rename it away.
    try {
      const aside = `${lock}.${process.pid}`;
      renameSync(lock, aside);
      rmSync(aside, { force: true });
    } catch {
      // Somebody else did.
    }
  }
  refuse(folder, '', 'another run is about to write to it', 'wait for it, or give another --out');
}

function refuseLive(folder: string, lock: string): void {
  const holder = readHolder(lock);
  if (holder === null || !isAlive(holder)) return;
  const what = `another run (process ${holder.pid}) is writing to it`;
  refuse(folder, '', what, 'wait for it, or give another --out');
}

function readHolder(lock: string): Holder | null {
  try {
    const { pid, started } = JSON.parse(readFileSync(lock, 'utf8')) as Partial<Holder>;
    return typeof pid === 'number' && typeof started === 'string' ? { pid, started } : null;
  } catch {
    return null;
  }
}

/** Alive, and the same process: a number may have been given to another one since. */
function isAlive({ pid, started }: Holder): boolean {
  try {
    process.kill(pid, 0);
  } catch (fault) {
    if ((fault as NodeJS.ErrnoException).code !== 'EPERM') return false;
  }
  return startOf(pid) === started;
}

/** When a process started, as the system counts; empty where it does not tell. */
function startOf(pid: number): string {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, 'utf8');
    return text.slice(text.lastIndexOf(')') + 2).split(' ')[19] ?? '';
  } catch {
    return '';
  }
}

function reasonOf(fault: unknown): string {
  const { code } = fault as NodeJS.ErrnoException;
  if (code === 'ENOSPC') return 'the disk is full';
  if (code === 'EACCES' || code === 'EPERM') return 'no permission';
  if (code === 'EROFS') return 'the disk is read-only';
  return fault instanceof Error ? fault.message.replace(/ '.*$/, '') : String(fault);
}
