import { closeSync, openSync, readFileSync, readSync } from 'node:fs';
import { join } from 'node:path';
import { BadInputError } from 'halfmax';
import { readFrameFile } from 'halfmax/session';
import { exposureFromFile } from './exposureFromFile.js';
import { type StatedTime, timeFromFile } from './timeFromFile.js';

/** What one file tells. */
export interface FileLook {
  readonly pixels: number;
  readonly scans: number;
  readonly highest: number;
  readonly exposureMs: number | null;
}

/** Headers are in the first blocks of a file. */
const HEAD_BYTES = 65_536;

/**
 * When a file says that it was taken; only its head is read.
 *
 * @param folder - the session folder
 * @param file - path relative to it
 * @returns day and time; null where it states none
 */
export function statedTime(folder: string, file: string): StatedTime | null {
  const head = Buffer.alloc(HEAD_BYTES);
  const opened = openSync(join(folder, file), 'r');
  try {
    return timeFromFile(head.subarray(0, readSync(opened, head)));
  } finally {
    closeSync(opened);
  }
}

/**
 * Reads a file as a frame.
 *
 * @param folder - the session folder
 * @param file - path relative to it
 * @returns what it tells; null where it is no frame
 */
export function lookAtFile(folder: string, file: string): FileLook | null {
  try {
    const bytes = readFileSync(join(folder, file));
    const { scans, images } = readFrameFile(bytes, file, null);
    const counts = [...scans.map((scan) => scan.counts), ...images.map(({ image }) => image.counts)];
    const pixels = scans[0]?.counts.length ?? images[0]?.image.pixels;
    if (pixels === undefined) return null;
    let highest = Number.NEGATIVE_INFINITY;
    for (const one of counts) for (const value of one) if (value > highest) highest = value;
    return { pixels, scans: counts.length, highest, exposureMs: exposureFromFile(bytes, file) };
  } catch (fault) {
    if (fault instanceof BadInputError || (fault as NodeJS.ErrnoException).code !== undefined) return null;
    throw fault;
  }
}
