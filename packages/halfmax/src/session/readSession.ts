import { createHash } from 'node:crypto';
import { realpathSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { BadInputError, refuse } from '../errors.js';
import type { Detector, FrameEntry, FrameRole, Scan } from '../frames/types.js';
import type { DecisionRule } from '../verdict/index.js';
import type { BenchConditions, BenchSession, FilterClaims, FilterEntry } from './benchSession.js';
import { checkMeaning } from './checkMeaning.js';
import { checkSchema } from './checkSchema.js';
import { decodeText } from './decodeText.js';
import { fileFault } from './fileFault.js';
import { asList, asNumber, asRecord, asText, type LooseRecord } from './manifest.js';
import { parseJson } from './parseJson.js';
import { parseTime } from './parseTime.js';
import { readBytes } from './readBytes.js';
import { readFrames } from './readFrames.js';
import { readSite } from './readSite.js';
import { readStars } from './readStars.js';
import { unknownFields } from './unknownFields.js';

const manifestName = 'session.json';
const maxManifestMebibytes = 4;

function findRoot(folder: string): string {
  let root: string;
  let isFolder: boolean;
  try {
    root = realpathSync(folder);
    isFolder = statSync(root).isDirectory();
  } catch (error) {
    return refuse(
      folder,
      '',
      `the session folder cannot be read: ${fileFault(error)}`,
      'give the folder that holds session.json',
    );
  }
  if (!isFolder) refuse(folder, '', 'is not a folder', 'give the folder that holds session.json');
  return root;
}

/** A format of a later version is said so, alone: its other fields may mean something else. */
function checkFormat(manifest: unknown): void {
  if (manifest === null || typeof manifest !== 'object' || Array.isArray(manifest)) {
    refuse(manifestName, '', 'is not a JSON object', 'write { "format": "halfmax-session/1", ... }');
  }
  const format = asText(asRecord(manifest)['format']);
  const number = /^halfmax-session\/(\d{1,9})$/.exec(format ?? '')?.[1];
  if (number !== undefined && Number(number) > 1) {
    refuse(
      manifestName,
      'format',
      `is ${number}, this version reads format 1`,
      'install a later version of halfmax',
    );
  }
}

function toDetector(detector: LooseRecord): Detector {
  const start = asNumber(detector['wavelengthStartNm']);
  const end = asNumber(detector['wavelengthEndNm']);
  const both = start !== null && end !== null;
  return {
    pixels: detector['pixels'] as number,
    saturationCounts: detector['saturationCounts'] as number,
    wavelengthStartNm: both ? start : null,
    wavelengthEndNm: both ? end : null,
    linearity: detector['linearity'] === undefined ? null : (detector['linearity'] as number[]),
  };
}

function toEntry(frame: LooseRecord, index: number, scans: readonly Scan[]): FrameEntry {
  const role = frame['role'] as FrameRole;
  const takenAt = asText(frame['takenAt']);
  return {
    index,
    role,
    exposureMs: frame['exposureMs'] as number,
    lamp: role === 'lamp' ? asText(frame['lamp']) : null,
    filter: role === 'filtered' ? asText(frame['filter']) : null,
    takenAtMs: takenAt === null ? null : parseTime(takenAt),
    scans,
  };
}

function toFilter(filter: LooseRecord): FilterEntry {
  const id = filter['id'] as string;
  return {
    id,
    label: asText(filter['label']) ?? id,
    lines: filter['lines'] as string[],
    claims: asRecord(filter['claims']) as FilterClaims,
    price: filter['price'] === undefined ? null : (filter['price'] as { amount: number; currency: string }),
  };
}

/** Numbers that a rule leaves out: 95 %, and a guard band of one expanded uncertainty of coverage factor 2. */
function toDecision(decision: unknown): DecisionRule | null {
  const { rule, probability, multiple, coverageFactor } = asRecord(decision);
  switch (rule) {
    case 'probability':
      return { kind: rule, probability: asNumber(probability) ?? 0.95 };
    case 'guarded':
      return { kind: rule, multiple: asNumber(multiple) ?? 1, coverageFactor: asNumber(coverageFactor) ?? 2 };
    default:
      return rule === 'simple' ? { kind: rule } : null;
  }
}

function toBench(bench: LooseRecord): BenchConditions {
  return {
    fNumber: asNumber(bench['fNumber']),
    temperatureC: asNumber(bench['temperatureC']),
    spot: asText(bench['spot']),
  };
}

/**
 * Reads a bench session: `session.json` and every frame it names.
 *
 * Nothing is trusted: the manifest is checked against its schema and its meaning, every file is found inside the
 * folder and parsed, and all that is wrong is reported at once.
 *
 * @param folder - the session folder
 * @returns the session as plain data, with a SHA-256 of every file read and warnings of what was not used
 * @throws {BadInputError} with every problem found, each with file, place, reason and what to do
 */
export function readSession(folder: string): BenchSession {
  const root = findRoot(folder);
  const bytes = readBytes(join(root, manifestName), manifestName, maxManifestMebibytes);
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const { value: manifest, warnings } = parseJson(decodeText(bytes, manifestName), manifestName);
  checkFormat(manifest);

  const meaning = checkMeaning(manifest, manifestName);
  const formal = checkSchema(manifest, manifestName);
  // What the schema has refused is not refused again for its meaning.
  const beyond = meaning.problems.filter(({ place }) => !formal.some((problem) => problem.place === place));
  const faults = [...formal, ...beyond];
  const frames = readFrames(root, manifest, manifestName, faults.length === 0);
  const stars = readStars(root, manifest, manifestName);
  const site = readSite(root, manifest, manifestName);
  const problems = [...faults, ...frames.problems, ...stars.problems, ...site.problems];
  if (problems.length > 0) throw new BadInputError(problems);

  const record = asRecord(manifest);
  const inputs = new Map([[manifestName, sha256]]);
  for (const input of [...frames.inputs, ...stars.inputs, ...site.inputs])
    inputs.set(input.file, input.sha256);
  return {
    title: asText(record['title']) ?? '',
    recorded: asText(record['recorded']),
    detector: toDetector(asRecord(record['detector'])),
    entries: asList(record['frames']).map((frame, i) => toEntry(asRecord(frame), i, frames.scans[i]!)),
    filters: asList(record['filters']).map((filter) => toFilter(asRecord(filter))),
    decision: toDecision(record['decision']),
    bench: toBench(asRecord(record['bench'])),
    skySpectrum: site.spectrum,
    ...(stars.stars.length === 0 ? {} : { stars: stars.stars }),
    manifest: record,
    inputs: Array.from(inputs, ([file, hash]) => ({ file, sha256: hash })).sort((a, b) =>
      a.file < b.file ? -1 : 1,
    ),
    warnings: [
      ...warnings,
      ...unknownFields(manifest, manifestName),
      ...meaning.warnings,
      ...frames.warnings,
    ],
  };
}
