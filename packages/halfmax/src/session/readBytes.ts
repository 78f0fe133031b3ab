import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';
import { BadInputError, refuse } from '../errors.js';
import { fileFault } from './fileFault.js';

/**
 * The bytes of a file, read once.
 *
 * @param path - file to read
 * @param where - its name in messages
 * @param maxMebibytes - largest size
 * @returns all bytes, at least one
 * @throws {BadInputError} missing, unreadable, a folder or device, empty, or too large
 */
export function readBytes(path: string, where: string, maxMebibytes: number): Uint8Array {
  let handle: number | null = null;
  // Without O_NONBLOCK the opening of a pipe would wait for a writer.
  try {
    handle = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const stats = fstatSync(handle);
    if (stats.isDirectory()) refuse(where, '', 'is a folder, not a file', 'name a file');
    if (!stats.isFile()) refuse(where, '', 'is not a regular file', 'name a file');
    if (stats.size === 0) refuse(where, '', 'is empty', 'copy or write it again');
    if (stats.size > maxMebibytes * 1048576) {
      const size = (stats.size / 1048576).toFixed(0);
      refuse(
        where,
        '',
        `is ${size} MiB large, more than the ${maxMebibytes} MiB allowed`,
        'is it the right file?',
      );
    }
    const bytes = new Uint8Array(stats.size);
    let filled = 0;
    while (filled < bytes.length) {
      const got = readSync(handle, bytes, filled, bytes.length - filled, filled);
      if (got === 0) return bytes.slice(0, filled);
      filled += got;
    }
    return bytes;
  } catch (error) {
    if (error instanceof BadInputError) throw error;
    return refuse(where, '', `cannot be read: ${fileFault(error)}`, 'check the name and the permissions');
  } finally {
    if (handle !== null) closeSync(handle);
  }
}
