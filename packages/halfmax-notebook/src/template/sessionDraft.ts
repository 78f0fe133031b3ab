import { filePatterns } from './filePatterns.js';
import { namesOf } from './surveyFolder.js';
import type { FolderSurvey } from './types.js';

/** A session.json to start from. */
export interface SessionDraft {
  readonly manifest: Readonly<Record<string, unknown>>;
  /** Fields that hold a text beginning with TODO, and roles without frames: place and what is wanted. */
  readonly missing: readonly { readonly place: string; readonly what: string }[];
  /** What was read from names and files and wants a second look. */
  readonly guessed: readonly string[];
}

/**
 * The manifest of a session from what is known of it. What is not known becomes a text that begins with TODO in its
 * field, which `halfmax measure` refuses by name.
 *
 * @param title - of the session, where the survey has none
 * @param survey - from `surveyFolder`, with answers from `askForMissing`
 * @returns manifest, what is missing, what was guessed
 */
export function sessionDraft(title: string, survey: FolderSurvey): SessionDraft {
  const missing: { place: string; what: string }[] = [];
  const guessed: string[] = [];
  const or = <T>(value: T | null, place: string, what: string): T | string => {
    if (value !== null) return value;
    missing.push({ place, what });
    return `TODO: ${what}`;
  };
  const seen =
    survey.highestCounts === null ? '' : ` (highest in the files looked at: ${survey.highestCounts})`;
  const detector = {
    pixels: or(survey.pixels, 'detector.pixels', 'pixels along the dispersion'),
    saturationCounts: or(
      survey.saturationCounts,
      'detector.saturationCounts',
      `counts at and above which a pixel is not to be trusted${seen}`,
    ),
  };
  const filters = Object.entries(survey.lines).map(([id, lines], k) => {
    const what = 'emission lines that the filter is for, such as "H-alpha"';
    if (lines !== null) guessed.push(`filter ${id} is for ${lines.join(', ')}`);
    const place = `filters[${k}].lines`;
    return { id, label: id, lines: lines ?? [or(null, place, what)], ...survey.facts[id] };
  });
  const all = survey.groups.flatMap(({ files }) => files);
  const frames = survey.groups.map(({ role, lamp, filter, exposureMs, files, takenAt }, k) => {
    const place = `frames[${k}]`;
    const of = ` of ${namesOf(files)}`;
    if (role !== null) {
      const what =
        role === 'lamp' && lamp !== null
          ? `lamp ${lamp}`
          : role === 'filtered' && filter !== null
            ? `filter ${filter}`
            : role;
      guessed.push(`${namesOf(files)}: ${what}${exposureMs === null ? '' : `, ${exposureMs} ms`}`);
    }
    return {
      role: or(role, `${place}.role`, `dark, lamp, open or filtered${of}`),
      ...(role === 'lamp'
        ? { lamp: or(lamp, `${place}.lamp`, `gas of the lamp${of}, such as "Hg-Ar"`) }
        : {}),
      ...(role === 'filtered' ? { filter: or(filter, `${place}.filter`, `id of the filter${of}`) } : {}),
      exposureMs: or(exposureMs, `${place}.exposureMs`, `exposure${of} in ms`),
      ...(takenAt === null ? {} : { takenAt }),
      files: filePatterns(files, all),
    };
  });
  for (const role of ['dark', 'lamp', 'open', 'filtered'] as const) {
    if (!survey.groups.some((group) => group.role === role))
      missing.push({ place: 'frames', what: `no ${role} frames were recognised` });
  }
  const recorded = survey.day?.isStated === true ? survey.day.day : null;
  if (recorded !== null) guessed.push(`frames were taken on ${recorded}`);
  return {
    manifest: {
      format: 'halfmax-session/1',
      title: survey.title ?? title,
      ...(recorded === null ? {} : { recorded }),
      detector,
      filters,
      frames,
    },
    missing,
    guessed,
  };
}
