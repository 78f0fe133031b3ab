import { dayOfFrames } from './dayOfFrames.js';
import { guessFromName } from './guessFromName.js';
import { linesFromId } from './linesFromId.js';
import { listFrameFiles } from './listFrameFiles.js';
import { type FileLook, lookAtFile, statedTime } from './lookAtFile.js';
import { timedGroups } from './timedGroups.js';
import type { StatedTime } from './timeFromFile.js';
import type { FolderSurvey, FrameGroup } from './types.js';

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
  const looks = new Map<string, FileLook | null>();
  const groups = new Map<string, { guess: ReturnType<typeof guessFromName>; files: string[] }>();
  for (const file of listFrameFiles(folder)) {
    const guess = guessFromName(file);
    const first = [...(groups.get(guess.stem)?.files ?? [])][0];
    const look = first === undefined ? lookAtFile(folder, file) : (looks.get(first) ?? null);
    if (first === undefined) looks.set(file, look);
    // A file that holds several frames is a scan of its own, taken at its own time.
    const key = look !== null && look.scans > 1 ? file : guess.stem;
    if (key === file && !looks.has(file)) looks.set(file, lookAtFile(folder, file));
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
  const named = used
    .map(({ guess: { stem: _, ...guess }, files, look }): FrameGroup => {
      const stated = look?.exposureMs ?? null;
      if (guess.exposureMs !== null && stated !== null && Math.abs(stated / guess.exposureMs - 1) > 0.01)
        remarks.push(
          `${namesOf(files)}: the name says ${guess.exposureMs} ms, the file ${stated} ms; the name is taken.`,
        );
      return { ...guess, exposureMs: guess.exposureMs ?? stated, files, takenAt: null };
    })
    .sort((a, b) => ROLES.indexOf(a.role) - ROLES.indexOf(b.role));
  const times = new Map(
    named.flatMap(({ files }) =>
      files.map((file): [string, StatedTime | null] => [file, statedTime(folder, file)]),
    ),
  );
  const list = timedGroups(named, times);
  const scans = list.filter(({ role }) => role === 'open' || role === 'filtered');
  if (scans.length > 1 && scans.some(({ takenAt }) => takenAt === null))
    remarks.push(
      'frames: files of the open and filtered scans do not state when they were taken, so the drift of the lamp between ' +
        'two open scans cannot be taken out; where you know the times, give the entries takenAt, such as ' +
        '"2026-01-31T20:15:00Z".',
    );
  const ids = [...new Set(list.flatMap(({ filter }) => (filter === null ? [] : [filter])))];
  const counts = used.flatMap(({ look }) => (look === null ? [] : [look.highest]));
  return {
    groups: list,
    pixels,
    highestCounts: counts.length === 0 ? null : Math.max(...counts),
    saturationCounts: null,
    lines: Object.fromEntries(ids.map((id) => [id, linesFromId(id)])),
    day: dayOfFrames(folder, times),
    title: null,
    facts: {},
    remarks,
  };
}

/** The first name, and how many more. */
export function namesOf(files: readonly string[]): string {
  return files.length === 1 ? files[0]! : `${files[0]} and ${files.length - 1} more`;
}

function mostCommon(numbers: readonly number[]): number | null {
  const times = new Map<number, number>();
  for (const number of numbers) times.set(number, (times.get(number) ?? 0) + 1);
  return [...times].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}
