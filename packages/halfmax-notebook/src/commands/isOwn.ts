import { realpathSync } from 'node:fs';
import { sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { packageRoot } from '../run/index.js';

/**
 * Whether a notebook belongs to the checkout that this command is of. The folder that the command is given in says
 * nothing about who wrote a notebook: what was sent or downloaded is run from there too. Nor does a project that has
 * this package installed: it is a folder of work like any other.
 *
 * @param notebook - its file; a link counts as what it leads to
 * @returns false for one from elsewhere
 */
export function isOwn(notebook: string): boolean {
  const checkout = packageRoot() + sep;
  const command = realpathSync(fileURLToPath(import.meta.url));
  if (!command.startsWith(checkout) || command.startsWith(`${checkout}node_modules${sep}`)) return false;
  return realpathSync(notebook).startsWith(checkout);
}
