import { realpathSync } from 'node:fs';
import { homedir } from 'node:os';
import { sep } from 'node:path';
import { packageRoot } from '../run/index.js';

/**
 * Whether a notebook belongs to whoever runs it: it lies in the folder that the command is given in, or in the checkout
 * that this package is used from.
 *
 * @param notebook - its file
 * @returns false for one from elsewhere
 */
export function isOwn(notebook: string): boolean {
  const file = realpathSync(notebook);
  const home = realpathSync(homedir()) + sep;
  return [realpathSync(process.cwd()), packageRoot()].some((folder) => {
    const inside = folder.endsWith(sep) ? folder : folder + sep;
    // A home folder, or one above it, is no folder of work: what was downloaded lies in it too.
    return !home.startsWith(inside) && file.startsWith(inside);
  });
}
