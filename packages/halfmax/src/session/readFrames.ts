import { createHash } from 'node:crypto';
import { BadInputError, type InputProblem } from '../errors.js';
import type { FrameRole, Scan, Warning } from '../frames/types.js';
import { expandPattern, type FoundFile } from './expandPattern.js';
import { extractSession, type RoleImage } from './extractSession.js';
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

/** Runs a step and keeps what it refuses. */
function attempt<T>(problems: InputProblem[], step: () => T): T | null {
  try {
    return step();
  } catch (error) {
    if (!(error instanceof BadInputError)) throw error;
    problems.push(...error.problems);
    return null;
  }
}

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

/** The files of every entry; a file that two entries name is refused, one that an entry names twice counts once. */
function findFiles(
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
      for (const file of attempt(problems, () => expandPattern(root, pattern, where, place)) ?? []) {
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

/** Turns all slit images of the session into scans, along one trace. */
function extractImages(
  contents: readonly { entry: number; content: FrameContent }[],
  manifest: unknown,
  problems: InputProblem[],
  warnings: Warning[],
): Map<SlitOwner, Scan> {
  const scans = new Map<SlitOwner, Scan>();
  const all = contents.flatMap(({ entry, content }) => content.images.map((owner) => ({ entry, owner })));
  const saturation = asNumber(asRecord(asRecord(manifest)['detector'])['saturationCounts']);
  if (all.length === 0 || saturation === null) return scans;
  const size = all[0]!.owner.image;
  const odd = all.find(({ owner }) => owner.image.rows !== size.rows || owner.image.pixels !== size.pixels);
  if (odd !== undefined) {
    const { file, column, image } = odd.owner;
    const what = `is ${image.pixels} x ${image.rows} pixels, ${all[0]!.owner.file} is ${size.pixels} x ${size.rows}`;
    problems.push({
      where: file,
      place: column,
      what,
      fix: 'all 2-D frames of a session must have the same size',
    });
    return scans;
  }
  const frames = asList(asRecord(manifest)['frames']);
  const roleImages = all.map(({ entry, owner }): RoleImage => {
    const frame = asRecord(frames[entry]);
    return {
      role: frame['role'] as FrameRole,
      exposureMs: asNumber(frame['exposureMs']) ?? 1,
      image: owner.image,
    };
  });
  const flat = contents.find(({ content }) => content.scans.length > 0);
  if (flat !== undefined) {
    const file = flat.content.scans[0]!.file;
    const what = `is a spectrum, ${all[0]!.owner.file} is a 2-D image: they cannot be combined`;
    problems.push({ where: file, place: '', what, fix: 'give all frames of a session in the same form' });
    return scans;
  }
  const { trace, spectra } = extractSession(roleImages, saturation);
  all.forEach(({ owner }, i) => {
    scans.set(owner, { file: owner.file, column: owner.column, counts: spectra[i]!, wavelengthNm: null });
  });
  const middle = trace.centreRow[Math.floor(size.pixels / 2)]!;
  const rows = Number.isFinite(trace.below + trace.above)
    ? `along rows ${(middle - trace.below + 1).toFixed(1)} to ${(middle + trace.above + 1).toFixed(1)} (at mid-length, from 1)`
    : 'over the whole height on at least one side';
  warnings.push({
    where: 'frames',
    what: `2-D frames: the mean of the rows is taken ${rows}, the same in all frames`,
  });
  if (asRecord(asRecord(manifest)['detector'])['linearity'] !== undefined) {
    const what = 'with 2-D frames it corrects the mean of the rows, not each pixel: strictly right only for a straight line';
    warnings.push({ where: 'detector.linearity', what });
  }
  return scans;
}

type SlitOwner = FrameContent['images'][number];

/**
 * Finds and reads all frame files of a session. Each file is read once; the hash is of the very bytes that are parsed.
 *
 * @param root - session folder, links resolved
 * @param manifest - parsed session.json, right or not
 * @param where - name of the manifest for messages
 * @returns scans per entry, hashes, and everything that is wrong
 */
export function readFrames(root: string, manifest: unknown, where: string): FramesRead {
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
      const content = attempt(problems, () => {
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
  const extracted = problems.length > 0 ? null : extractImages(contents, manifest, problems, warnings);
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
