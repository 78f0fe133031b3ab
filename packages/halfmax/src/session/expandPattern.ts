import { readdirSync, realpathSync, statSync } from 'node:fs';
import { join, sep } from 'node:path';
import { refuse } from '../errors.js';
import { fileFault } from './fileFault.js';
import { matchesWildcard } from './matchesWildcard.js';
import { nearestName } from './nearestName.js';
import { quoteValue } from './quoteValue.js';

/** A file that a session names. */
export interface FoundFile {
  /** Path as the session sees it: relative to its folder, with `/`. */
  readonly file: string;
  /** Where it really lies, links resolved. */
  readonly realPath: string;
}

function compareCodeUnits(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder).sort(compareCodeUnits);
  } catch {
    return [];
  }
}

function kindOf(path: string): 'file' | 'folder' | 'other' | 'none' {
  try {
    const stats = statSync(path);
    return stats.isFile() ? 'file' : stats.isDirectory() ? 'folder' : 'other';
  } catch (error) {
    if (
      (error as NodeJS.ErrnoException).code === 'ENOENT' ||
      (error as NodeJS.ErrnoException).code === 'ENOTDIR'
    )
      return 'none';
    throw error;
  }
}

function requireInside(pattern: string, segments: readonly string[], where: string, place: string): void {
  const shown = quoteValue(pattern);
  const fix = 'give paths relative to the session folder, with /';
  if (pattern.includes('\0')) refuse(where, place, `${shown} holds a null character`, fix);
  if (pattern.startsWith('/') || pattern.startsWith('\\') || /^[A-Za-z]:/.test(pattern)) {
    refuse(where, place, `${shown} is an absolute path`, fix);
  }
  if (segments.includes('..')) refuse(where, place, `${shown} leads out of the session folder`, fix);
}

/**
 * The files that one pattern of a session names, sorted by name in code-unit order. `*` stands for any run of
 * characters but `/`, in any segment of the path.
 *
 * @param rootRealPath - the session folder, links resolved
 * @param pattern - relative path, may hold `*`
 * @param where - file that gives the pattern, for messages
 * @param place - field that gives the pattern, for messages
 * @returns at least one file inside the folder
 * @throws {BadInputError} no such file, a folder, a device, a path that is absolute or leads out of the folder, also
 * through a link
 */
export function expandPattern(
  rootRealPath: string,
  pattern: string,
  where: string,
  place: string,
): FoundFile[] {
  const segments = pattern.split('/').filter((segment) => segment !== '.' && segment !== '');
  requireInside(pattern, segments, where, place);
  const shown = quoteValue(pattern);
  const isGlob = pattern.includes('*');
  let found: string[] = [''];
  try {
    segments.forEach((segment, depth) => {
      const last = depth === segments.length - 1;
      const next: string[] = [];
      for (const parent of found) {
        const names = segment.includes('*')
          ? namesIn(join(rootRealPath, parent)).filter((name) => matchesWildcard(name, segment))
          : [segment];
        for (const name of names) {
          const path = parent === '' ? name : `${parent}/${name}`;
          const kind = kindOf(join(rootRealPath, path));
          if (last ? kind === 'file' || (!isGlob && kind !== 'none') : kind === 'folder') next.push(path);
        }
      }
      found = next;
    });
  } catch (error) {
    refuse(
      where,
      place,
      `${shown} cannot be looked up: ${fileFault(error)}`,
      'correct the path or its permissions',
    );
  }
  if (found.length === 0) {
    const parent = join(rootRealPath, ...segments.slice(0, -1).filter((segment) => !segment.includes('*')));
    const near = isGlob ? null : nearestName(segments[segments.length - 1] ?? '', namesIn(parent));
    let fix = isGlob ? 'correct the pattern or add the files' : 'correct the name or add the file';
    if (near !== null) fix = `did you mean ${quoteValue(near)}?`;
    else if (pattern.includes('\\')) fix = 'write / between folders, not \\';
    refuse(
      where,
      place,
      `${shown} ${isGlob ? 'matches no file' : 'does not exist'} in the session folder`,
      fix,
    );
  }
  return found.sort(compareCodeUnits).map((file) => {
    const realPath = realpathSync(join(rootRealPath, file));
    if (
      realPath !== rootRealPath &&
      !realPath.startsWith(rootRealPath.endsWith(sep) ? rootRealPath : rootRealPath + sep)
    ) {
      refuse(
        where,
        place,
        `${quoteValue(file)} is a link that leads out of the session folder`,
        'copy the file into the session folder',
      );
    }
    const kind = kindOf(realPath);
    if (kind === 'folder')
      refuse(
        where,
        place,
        `${quoteValue(file)} is a folder, not a file`,
        `name its files, for example "${file}/*"`,
      );
    if (kind !== 'file') refuse(where, place, `${quoteValue(file)} is not a regular file`, 'name a file');
    return { file, realPath };
  });
}
