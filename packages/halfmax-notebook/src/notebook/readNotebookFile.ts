import { readFileSync } from 'node:fs';
import { readNotebook } from './readNotebook.js';
import { refuse } from './refuse.js';
import type { Notebook } from './types.js';

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'does not exist',
  EACCES: 'may not be read',
  EPERM: 'may not be read',
  EISDIR: 'is a folder',
  ENOTDIR: 'has a file where a folder should be in its path',
};

/**
 * A notebook from an .ipynb file.
 *
 * @param path - the file
 * @returns the notebook with every multi-line text joined to one string
 * @throws {BadInputError} the file cannot be read or is no notebook
 */
export function readNotebookFile(path: string): Notebook {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(path);
  } catch (error) {
    const code = (error as { code?: unknown }).code;
    if (typeof code !== 'string') throw error;
    refuse(path, '', reasons[code] ?? `cannot be read (${code})`, 'name an .ipynb file');
  }
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    refuse(path, '', 'is not UTF-8 text', 'name an .ipynb file');
  }
  return readNotebook(text, path);
}
