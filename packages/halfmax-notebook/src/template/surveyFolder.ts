import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { BadInputError } from 'halfmax';
import { readFrameFile } from 'halfmax/session';
import { exposureFromFile } from './exposureFromFile.js';
import { guessFromName } from './guessFromName.js';
import { linesFromId } from './linesFromId.js';
import { listFrameFiles } from './listFrameFiles.js';
import type { FolderSurvey, FrameGroup } from './types.js';

/** What one file tells. */
interface Look {
  readonly pixels: number;
  readonly scans: number;
  readonly highest: number;
  readonly exposureMs: number | null;
}

const ROLES = ['dark', 'lamp', 'open', 'filtered', null] as const;

/**
 * Looks at the frame files of a folder: names tell roles, lamps, filters and exposures, the first file of each group
 * tells the pixels.
 *
 * @param folder - the session folder
 * @returns groups, and what the files tell of the detector; nothing is asked, nothing written
 */
export function surveyFolder(folder: string): FolderSurvey {
  const remarks: string[] = [];
  const looks = new Map<string, Look | null>();
  const groups = new Map<string, { guess: ReturnType<typeof guessFromName>; files: string[] }>();
  for (const file of listFrameFiles(folder)) {
    const guess = guessFromName(file);
    const first = [...(groups.get(guess.stem)?.files ?? [])][0];
    const look = first === undefined ? lookAt(folder, file) : (looks.get(first) ?? null);
    if (first === undefined) looks.set(file, look);
    // A file that holds several frames is a scan of its own, taken at its own time.
    const key = look !== null && look.scans > 1 ? file : guess.stem;
    if (key === file && !looks.has(file)) looks.set(file, lookAt(folder, file));
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { guess, files: [file] });
    else group.files.push(file);
  }
  const seen = [...groups.values()].map(({ guess, files }) => ({
    guess,
    files,
    look: looks.get(files[0]!) ?? null,
  }));
  const pixels = mostCommon(seen.flatMap(({ look }) => (look === null ? [] : [look.pixels])));
  const used = seen.filter(({ guess, files, look }) => {
    if (look === null) remarks.push(`${namesOf(files)}: cannot be read as a frame; not used.`);
    else if (guess.role === null && look.pixels !== pixels)
      remarks.push(`${namesOf(files)}: ${look.pixels} values and no role in the name; not used.`);
    else {
      if (look.pixels !== pixels)
        remarks.push(`${namesOf(files)}: ${look.pixels} values, where most frames have ${pixels} pixels.`);
      return true;
    }
    return false;
  });
  const list = used
    .map(({ guess: { stem: _, ...guess }, files, look }): FrameGroup => {
      const stated = look?.exposureMs ?? null;
      if (guess.exposureMs !== null && stated !== null && Math.abs(stated / guess.exposureMs - 1) > 0.01)
        remarks.push(
          `${namesOf(files)}: the name says ${guess.exposureMs} ms, the file ${stated} ms; the name is taken.`,
        );
      return { ...guess, exposureMs: guess.exposureMs ?? stated, files };
    })
    .sort((a, b) => ROLES.indexOf(a.role) - ROLES.indexOf(b.role));
  if (list.some(({ role }) => role === 'open') && list.some(({ role }) => role === 'filtered'))
    remarks.push(
      'frames: with takenAt, such as "2026-01-31T20:15:00Z", in the open and filtered entries the drift of the lamp can be taken out.',
    );
  const ids = [...new Set(list.flatMap(({ filter }) => (filter === null ? [] : [filter])))];
  const counts = used.flatMap(({ look }) => (look === null ? [] : [look.highest]));
  return {
    groups: list,
    pixels,
    highestCounts: counts.length === 0 ? null : Math.max(...counts),
    saturationCounts: null,
    lines: Object.fromEntries(ids.map((id) => [id, linesFromId(id)])),
    remarks,
  };
}

/** The first name, and how many more. */
export function namesOf(files: readonly string[]): string {
  return files.length === 1 ? files[0]! : `${files[0]} and ${files.length - 1} more`;
}

function lookAt(folder: string, file: string): Look | null {
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

function mostCommon(numbers: readonly number[]): number | null {
  const times = new Map<number, number>();
  for (const number of numbers) times.set(number, (times.get(number) ?? 0) + 1);
  return [...times].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}
