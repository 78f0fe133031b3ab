import { createHash } from 'node:crypto';
import type { InputProblem } from '../errors.js';
import type { Scan, Warning } from '../frames/types.js';
import { collectProblems } from './collectProblems.js';
import { extractImages } from './extractImages.js';
import { findFiles } from './findFiles.js';
import type { FrameContent } from './fitsFrames.js';
import { asList, asNumber, asRecord } from './manifest.js';
import { readBytes } from './readBytes.js';
import { readFrameFile } from './readFrameFile.js';

/** Files of a session, read. */
export interface FramesRead {
  /** Scans of each entry, in the order of its patterns and, inside a pattern, of the names. */
  readonly scans: readonly (readonly Scan[])[];
  readonly inputs: readonly { readonly file: string; readonly sha256: string }[];
  readonly problems: readonly InputProblem[];
  readonly warnings: readonly Warning[];
}

const maxFrameMebibytes = 256;

function checkLength(scan: Scan, pixels: number, problems: InputProblem[]): void {
  const n = scan.counts.length;
  if (n === pixels) return;
  const what = `holds ${n} values, the detector has ${pixels} pixels`;
  const fix =
    n < pixels
      ? 'the file may be cut short: export it again, or correct detector.pixels'
      : 'correct detector.pixels or the frame';
  problems.push({ where: scan.file, place: scan.column, what, fix });
}

/** Warns of files with the same bytes: a copied file is no second exposure. */
function warnOfCopies(inputs: readonly { file: string; sha256: string }[], warnings: Warning[]): void {
  const first = new Map<string, string>();
  for (const { file, sha256 } of inputs) {
    const twin = first.get(sha256);
    if (twin === undefined) first.set(sha256, file);
    else
      warnings.push({ where: file, what: `holds the very bytes of ${twin}: a copy is no second exposure` });
  }
}

/**
 * Finds and reads all frame files of a session. Each file is read once; the hash is of the very bytes that are parsed.
 *
 * @param root - session folder, links resolved
 * @param manifest - parsed session.json, right or not
 * @param where - name of the manifest for messages
 * @param isSound - whether the manifest has no faults: only then are 2-D frames extracted
 * @returns scans per entry, hashes, and everything that is wrong
 */
export function readFrames(root: string, manifest: unknown, where: string, isSound: boolean): FramesRead {
  const problems: InputProblem[] = [];
  const warnings: Warning[] = [];
  const frames = asList(asRecord(manifest)['frames']);
  const length = asNumber(asRecord(asRecord(manifest)['detector'])['pixels']);
  const pixels =
    length !== null && Number.isInteger(length) && length >= 16 && length <= 100_000 ? length : null;
  const inputs: { file: string; sha256: string }[] = [];
  const contents: { entry: number; content: FrameContent }[] = [];
  findFiles(root, frames, where, problems).forEach((files, entry) => {
    for (const { file, realPath } of files) {
      const content = collectProblems(problems, () => {
        const bytes = readBytes(realPath, file, maxFrameMebibytes);
        inputs.push({ file, sha256: createHash('sha256').update(bytes).digest('hex') });
        return readFrameFile(bytes, file, pixels);
      });
      if (content === null) continue;
      contents.push({ entry, content });
      warnings.push(...content.warnings);
      if (pixels !== null) for (const scan of content.scans) checkLength(scan, pixels, problems);
    }
  });
  warnOfCopies(inputs, warnings);
  const extracted =
    problems.length > 0 || !isSound ? null : extractImages(contents, manifest, problems, warnings);
  const scans = frames.map((_, entry) =>
    contents
      .filter((item) => item.entry === entry)
      .flatMap(({ content }) => [
        ...content.scans,
        ...content.images.flatMap((image) => extracted?.get(image) ?? []),
      ]),
  );
  return { scans, inputs, problems, warnings };
}
