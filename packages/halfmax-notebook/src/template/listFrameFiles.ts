import { readdirSync } from 'node:fs';
import { join } from 'node:path';

const FRAMES = /\.(?:csv|tsv|txt|dat|asc|fits?|fts|jdx|dx)$/i;
const MOST_DEPTH = 4;
const MOST_FILES = 20_000;

/**
 * The files below a folder that may be frames, by their endings; hidden ones and links are left out.
 *
 * @param folder - the session folder
 * @returns paths relative to it, `/` between folders, numbers in names in the order of their size
 */
export function listFrameFiles(folder: string): string[] {
  const files: string[] = [];
  const walk = (below: string, depth: number): void => {
    for (const entry of readdirSync(join(folder, below), { withFileTypes: true })) {
      if (entry.name.startsWith('.') || files.length >= MOST_FILES) continue;
      const path = below === '' ? entry.name : `${below}/${entry.name}`;
      if (entry.isDirectory() && depth < MOST_DEPTH && entry.name !== 'node_modules') walk(path, depth + 1);
      else if (entry.isFile() && FRAMES.test(entry.name)) files.push(path);
    }
  };
  walk('', 0);
  const order = new Intl.Collator('en', { numeric: true });
  return files.sort((a, b) => order.compare(a, b) || (a < b ? -1 : 1));
}
