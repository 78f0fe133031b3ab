import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Folder of the published package in this checkout. */
export const packageFolder = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'packages', 'halfmax');

/**
 * What the package's exports map offers to programs.
 *
 * @param {string} [folder] folder of the package
 * @returns {{ entry: string, room: string, types: string, code: string, nodeOnly: boolean }[]}
 */
export function packageEntries(folder = packageFolder) {
  const { name, exports } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  return Object.entries(exports)
    .filter(([path]) => path !== './package.json')
    .map(([path, target]) => ({
      entry: path.replace('.', name),
      room: path.replace(/^\.\/?/, ''),
      types: target.types,
      code: target.default ?? target.node,
      nodeOnly: target.default === undefined,
    }));
}

/**
 * Entries that a program imports from the package, in the order of its text.
 *
 * @param {string} text source of the program
 * @returns {string[]}
 */
export function entriesImported(text) {
  return [...text.matchAll(/^import\s[^;]*?from '(halfmax(?:\/[a-z]+)?)';$/gm)].map((match) => match[1]);
}
