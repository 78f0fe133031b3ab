import { createHash } from 'node:crypto';
import { type InputProblem, refuse } from '../errors.js';
import { collectProblems } from './collectProblems.js';
import { expandPattern } from './expandPattern.js';
import { frameFormat } from './frameFormat.js';
import { asList, asRecord, asText } from './manifest.js';
import { parseFits } from './parseFits.js';
import { readBytes } from './readBytes.js';

/**
 * Checks the star images that a session names: each must be one FITS file with a 2-D image.
 *
 * @param root - session folder, links resolved
 * @param manifest - parsed session.json, right or not
 * @param where - name of the manifest for messages
 * @returns hashes of the files and everything that is wrong
 */
export function readStars(
  root: string,
  manifest: unknown,
  where: string,
): { inputs: { file: string; sha256: string }[]; problems: InputProblem[] } {
  const inputs = new Map<string, string>();
  const problems: InputProblem[] = [];
  asList(asRecord(manifest)['stars']).forEach((star, i) => {
    const pattern = asText(asRecord(star)['file']);
    if (pattern === null || pattern === '') return;
    const place = `stars[${i}].file`;
    collectProblems(problems, () => {
      const files = expandPattern(root, pattern, where, place);
      if (files.length > 1) refuse(where, place, `matches ${files.length} files`, 'name one');
      const { file, realPath } = files[0]!;
      const bytes = readBytes(realPath, file, 1024);
      inputs.set(file, createHash('sha256').update(bytes).digest('hex'));
      if (frameFormat(bytes) !== 'fits') refuse(file, '', 'is not a FITS file', 'a star image must be FITS');
      if (!parseFits(bytes, file).some((image) => image.axes.length === 2)) {
        refuse(file, '', 'holds no 2-D image', 'give the image of a star');
      }
    });
  });
  return { inputs: Array.from(inputs, ([file, sha256]) => ({ file, sha256 })), problems };
}
