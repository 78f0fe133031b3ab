import { accessSync, constants } from 'node:fs';
import { delimiter, isAbsolute, join } from 'node:path';

/**
 * Where a program is.
 *
 * @param name - without a folder
 * @returns its path from PATH, or null where it is not
 */
export function findProgram(name: string): string | null {
  for (const folder of (process.env['PATH'] ?? '').split(delimiter)) {
    // A relative folder in PATH would find what lies beside a colleague's notebook.
    if (!isAbsolute(folder)) continue;
    const path = join(folder, name);
    try {
      accessSync(path, constants.X_OK);
      return path;
    } catch {
      // Not in this folder.
    }
  }
  return null;
}
