import type { InputProblem } from '../errors.js';
import type { FrameEntry } from './types.js';
import { plainNumber } from './wording.js';

/**
 * An entry as a warning names it.
 *
 * @param entry - of the session's frames
 * @returns place in the session, light and exposure
 */
export function entryName(entry: FrameEntry): string {
  const light = entry.filter ?? entry.lamp ?? entry.role;
  return `frames[${entry.index}] (${light}, ${plainNumber(entry.exposureMs)} ms)`;
}

/**
 * A problem with an entry as a whole.
 *
 * @param entry - of the session's frames
 * @param what - what is wrong
 * @param fix - what to do
 * @returns the problem, with the entry's files and its place
 */
export function entryProblem(entry: FrameEntry, what: string, fix: string): InputProblem {
  const files = [...new Set(entry.scans.map((scan) => scan.file))];
  return { where: files.join(', '), place: `frames[${entry.index}]`, what, fix };
}
