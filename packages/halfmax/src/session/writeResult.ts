import { randomBytes } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { BadInputError, refuse } from '../errors.js';
import { fileFault } from './fileFault.js';

/** A file to write: a plain name without folders, and its content. */
export interface ResultFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

function requireNames(names: readonly string[]): void {
  const seen = new Set<string>();
  for (const name of names) {
    if (name === '' || name === '.' || name === '..' || /[/\\\0]/.test(name)) {
      throw new RangeError(`writeResult requires plain file names, got ${JSON.stringify(name)}`);
    }
    if (seen.has(name.toLowerCase()))
      throw new RangeError(`writeResult requires different file names, got ${name} twice`);
    seen.add(name.toLowerCase());
  }
}

/** Creates the folder with its parents; returns those that were not there, innermost first. */
function createFolder(folder: string): string[] {
  const created: string[] = [];
  for (let at = folder; !existsSync(at) && dirname(at) !== at; at = dirname(at)) created.push(at);
  mkdirSync(folder, { recursive: true });
  return created;
}

function writeDurably(path: string, content: string | Uint8Array): void {
  const handle = openSync(path, 'wx');
  try {
    writeFileSync(handle, content);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Tries each step, even when one before it fails: used to clean up. */
function quietly(steps: readonly (() => void)[]): void {
  for (const step of steps) {
    try {
      step();
    } catch {
      // Cleaning up goes on: the first error is the one to report.
    }
  }
}

/**
 * Writes files that belong together: all or none.
 *
 * Everything is first written under temporary names in the same folder and flushed to the disk; then the old files are
 * set aside and the new ones renamed into place. If any step fails the old files are put back and nothing new remains.
 * Files of an earlier result that this one does not replace are set aside with them, and gone in the end.
 *
 * @param outDir - folder to write to; made if it is not there
 * @param files - plain names, all different
 * @param stale - plain names of earlier files to be removed, other than those of the new ones; what is no file stays
 * @returns nothing: when it comes back, all of it is done
 * @throws {BadInputError} the folder is a file, is not writable, a folder stands in the way, the disk is full
 * @throws {RangeError} names with folders, or twice the same
 */
export function writeResult(
  outDir: string,
  files: readonly ResultFile[],
  stale: readonly string[] = [],
): void {
  requireNames([...files.map(({ name }) => name), ...stale]);
  const folder = resolve(outDir);
  const tag = randomBytes(6).toString('hex');
  const planned = files.map(({ name, content }) => ({
    name,
    content,
    target: join(folder, name),
    fresh: join(folder, `.${name}.${tag}.new`),
    old: join(folder, `.${name}.${tag}.old`),
  }));
  const undo: (() => void)[] = [];
  const setAside: string[] = [];
  let step = outDir;
  try {
    if (existsSync(folder) && !statSync(folder).isDirectory())
      refuse(outDir, '', 'is a file, not a folder', 'give another --out');
    for (const path of createFolder(folder).reverse()) undo.unshift(() => rmdirSync(path));
    for (const { name, target } of planned) {
      if (existsSync(target) && !statSync(target).isFile())
        refuse(join(outDir, name), '', 'is in the way and no file', 'move it or give another --out');
    }
    for (const { name, content, fresh } of planned) {
      step = join(outDir, name);
      undo.unshift(() => rmSync(fresh, { force: true }));
      writeDurably(fresh, content);
    }
    for (const { name, target, fresh, old } of planned) {
      step = join(outDir, name);
      if (existsSync(target)) {
        renameSync(target, old);
        undo.unshift(() => renameSync(old, target));
        setAside.push(old);
      }
      renameSync(fresh, target);
      undo.unshift(() => rmSync(target, { force: true }));
    }
    for (const name of stale) {
      const target = join(folder, name);
      step = join(outDir, name);
      if (!existsSync(target) || !statSync(target).isFile()) continue;
      const old = join(folder, `.${name}.${tag}.old`);
      renameSync(target, old);
      undo.unshift(() => renameSync(old, target));
      setAside.push(old);
    }
  } catch (error) {
    quietly(undo);
    if (error instanceof BadInputError) throw error;
    refuse(
      step,
      '',
      `cannot be written: ${fileFault(error)}`,
      'check the folder and its permissions, or give another --out',
    );
  }
  quietly(setAside.map((path) => () => rmSync(path, { force: true })));
}
