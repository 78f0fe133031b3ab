import { createHash } from 'node:crypto';
import { closeSync, openSync, readSync } from 'node:fs';
import { refuse } from '../errors.js';
import { fileFault } from './fileFault.js';

const CHUNK_BYTES = 1 << 20;

/**
 * SHA-256 of a file, read in pieces: its size does not matter.
 *
 * @param path - a regular file
 * @param where - its name in messages
 * @returns 64 hexadecimal digits
 * @throws {BadInputError} a file that cannot be read
 */
export function hashFile(path: string, where: string): string {
  let handle: number | null = null;
  try {
    handle = openSync(path, 'r');
    const hash = createHash('sha256');
    const chunk = new Uint8Array(CHUNK_BYTES);
    for (let got = readSync(handle, chunk); got > 0; got = readSync(handle, chunk))
      hash.update(chunk.subarray(0, got));
    return hash.digest('hex');
  } catch (error) {
    return refuse(where, '', `cannot be read: ${fileFault(error)}`, 'check the name and the permissions');
  } finally {
    if (handle !== null) closeSync(handle);
  }
}
