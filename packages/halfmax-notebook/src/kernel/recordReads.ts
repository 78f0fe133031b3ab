import { createHash } from 'node:crypto';
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { basename, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** A file that a notebook read: `label:path`, its size in bytes, and the digest of its content when it was first opened. */
export interface FileRead {
  readonly file: string;
  readonly bytes: number;
  readonly sha256: string;
}

/** A record of the files that this process opens. */
export interface ReadRecord {
  /** Names a folder; the innermost named folder around a file names it. */
  readonly nameFolder: (label: string, folder: string) => void;
  /** The files so far, by name. */
  readonly files: () => FileRead[];
}

/** Files of the machine that libraries look at to know which of their binaries to load. */
const machineFiles = new Set(['/usr/bin/ldd', '/etc/alpine-release', '/etc/os-release']);
/** What the compiler looks at to find modules. */
const moduleFiles = new Set(['package.json', 'tsconfig.json']);
const machineFolders = ['/proc', '/sys', '/dev'];
const CHUNK = 1 << 20;

/**
 * Records every file that this thread opens for reading through node:fs from now on. Code of packages is left out.
 *
 * @param leftOut - folders whose files are not recorded, besides any `node_modules`
 * @returns the record, which grows
 */
export function recordReads(leftOut: readonly string[]): ReadRecord {
  const seen = new Map<string, { bytes: number; sha256: string }>();
  const folders: { label: string; folder: string }[] = [];
  const raw = { openSync: fs.openSync, readSync: fs.readSync, closeSync: fs.closeSync };
  const outside = [...leftOut, ...machineFolders].map((folder) => folder + sep);

  const note = (path: unknown): void => {
    if (typeof path !== 'string' && !(path instanceof URL) && !Buffer.isBuffer(path)) return;
    try {
      const name = path instanceof URL ? fileURLToPath(path) : String(path);
      const full = fs.realpathSync(resolve(name));
      if (seen.has(full) || machineFiles.has(full) || moduleFiles.has(basename(full))) return;
      if (full.split(sep).includes('node_modules') || outside.some((folder) => full.startsWith(folder)))
        return;
      if (fs.statSync(full).isFile()) seen.set(full, digest(full, raw));
    } catch {
      // What cannot be opened is not read; the caller hears of it from the call itself.
    }
  };
  wrapReaders(note);

  const nameOf = (full: string): string => {
    let best = { label: 'elsewhere', path: basename(full), depth: 0 };
    for (const { label, folder } of folders) {
      if (full.startsWith(folder + sep) && folder.length > best.depth)
        best = { label, path: relative(folder, full).split(sep).join('/'), depth: folder.length };
    }
    return `${best.label}:${best.path}`;
  };
  return {
    nameFolder: (label, folder) => {
      folders.push({ label, folder: realPath(folder) });
    },
    files: () =>
      [...seen]
        .map(([full, { bytes, sha256 }]) => ({ file: nameOf(full), bytes, sha256 }))
        .sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : 0)),
  };
}

/** As the system names it; a folder that may not be looked at keeps its own name. */
function realPath(folder: string): string {
  try {
    return fs.realpathSync(folder);
  } catch {
    return resolve(folder);
  }
}

function digest(
  path: string,
  raw: Pick<typeof fs, 'openSync' | 'readSync' | 'closeSync'>,
): { bytes: number; sha256: string } {
  const hash = createHash('sha256');
  const handle = raw.openSync(path, 'r');
  let bytes = 0;
  try {
    const chunk = Buffer.allocUnsafe(CHUNK);
    for (let got = raw.readSync(handle, chunk); got > 0; got = raw.readSync(handle, chunk)) {
      hash.update(chunk.subarray(0, got));
      bytes += got;
    }
  } finally {
    raw.closeSync(handle);
  }
  return { bytes, sha256: hash.digest('hex') };
}

type Reader = (path: unknown, ...rest: unknown[]) => unknown;

function wrapReaders(note: (path: unknown) => void): void {
  const wrap = (holder: object, name: string, reads: (rest: readonly unknown[]) => boolean): void => {
    const raw = (holder as Record<string, Reader>)[name]!;
    (holder as Record<string, Reader>)[name] = function (this: unknown, path, ...rest) {
      if (reads(rest)) note(path);
      return raw.call(this, path, ...rest);
    };
  };
  const always = (): boolean => true;
  const byFlag = ([flags]: readonly unknown[]): boolean =>
    typeof flags === 'string' ? /^r|\+/.test(flags) : typeof flags !== 'number' || (flags & 3) !== 1;
  for (const holder of [fs, fs.promises]) {
    wrap(holder, 'readFile', always);
    wrap(holder, 'open', byFlag);
  }
  wrap(fs, 'readFileSync', always);
  wrap(fs, 'openSync', byFlag);
  wrap(fs, 'createReadStream', always);
  wrap(fs, 'copyFileSync', always);
  wrap(fs, 'copyFile', always);
  syncBuiltinESMExports();
}
