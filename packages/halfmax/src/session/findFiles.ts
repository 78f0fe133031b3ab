import type { InputProblem } from '../errors.js';
import { collectProblems } from './collectProblems.js';
import { expandPattern, type FoundFile } from './expandPattern.js';
import { asList, asRecord } from './manifest.js';

/**
 * The files of every entry; a file that two entries name is refused, one that an entry names twice counts once.
 *
 * @param root - session folder, links resolved
 * @param frames - `frames` of the manifest, right or not
 * @param where - name of the manifest for messages
 * @param problems - gains what is wrong
 * @returns the files of each entry, in the order of its patterns and of their names
 */
export function findFiles(
  root: string,
  frames: readonly unknown[],
  where: string,
  problems: InputProblem[],
): FoundFile[][] {
  const owners = new Map<string, number>();
  return frames.map((frame, i) => {
    const found: FoundFile[] = [];
    asList(asRecord(frame)['files']).forEach((pattern, k) => {
      if (typeof pattern !== 'string' || pattern === '') return;
      const place = `frames[${i}].files[${k}]`;
      for (const file of collectProblems(problems, () => expandPattern(root, pattern, where, place)) ?? []) {
        const owner = owners.get(file.realPath);
        if (owner === i) continue;
        if (owner !== undefined) {
          const what = `"${file.file}" is also a frame of frames[${owner}]`;
          problems.push({ where, place, what, fix: 'a frame belongs to one entry: correct one of the two' });
          continue;
        }
        owners.set(file.realPath, i);
        found.push(file);
      }
    });
    return found;
  });
}
