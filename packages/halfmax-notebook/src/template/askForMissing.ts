import { knownLamps, lampSpecies, resolveLines } from 'halfmax/reference';
import { askOfFilter } from './askOfFilter.js';
import { type Ask, askUntil } from './askUntil.js';
import { readDay } from './readDay.js';
import { namesOf } from './surveyFolder.js';
import type { FilterFacts, FolderSurvey, FrameGroup, FrameRole } from './types.js';

const ROLES: readonly string[] = ['dark', 'lamp', 'open', 'filtered'];

/**
 * Asks for what neither names nor files tell.
 *
 * @param survey - from `surveyFolder`
 * @param ask - puts one question
 * @returns the survey with the answers in it; what was left empty, or answered wrongly three times, stays open
 */
export async function askForMissing(survey: FolderSurvey, ask: Ask): Promise<FolderSurvey> {
  const groups: FrameGroup[] = [];
  const lines: Record<string, readonly string[] | null> = { ...survey.lines };
  for (const group of survey.groups) groups.push(await askOfGroup(group, ask));
  for (const { filter } of groups) if (filter !== null && lines[filter] === undefined) lines[filter] = null;
  for (const [id, known] of Object.entries(lines)) {
    if (known !== null) continue;
    const question = `Emission lines of the filter ${id}, with commas between (H-alpha, [O III], [S II] 671.6): `;
    lines[id] = await askUntil(ask, question, (answer) => {
      const names = answer.split(/[,;]/).map((part) => part.trim());
      return names.every((name) => resolveLines(name) !== null) ? names : null;
    });
  }
  const seen =
    survey.highestCounts === null
      ? ''
      : ` The highest count in the files looked at is ${survey.highestCounts}.`;
  const saturationCounts =
    survey.saturationCounts ??
    (await askUntil(ask, `From which count on is a pixel not to be trusted?${seen} `, positive));
  const day = await askForDay(survey, ask);
  const title =
    survey.title ??
    (await askUntil(ask, 'Title of the session (empty: the name of its folder): ', (answer) =>
      answer.length <= 200 ? answer : null,
    ));
  const facts: Record<string, FilterFacts> = {};
  for (const [id, known] of Object.entries(lines)) facts[id] = await askOfFilter(id, known, ask);
  return { ...survey, groups, lines, saturationCounts, day, title, facts };
}

/** The day that files state is not asked for again; that of their last change is a proposal. */
async function askForDay({ day }: FolderSurvey, ask: Ask): Promise<FolderSurvey['day']> {
  if (day?.isStated === true) return day;
  const proposal =
    day === null ? '' : ` Perhaps ${day.day}, when the first of the files was last changed (yes)?`;
  const answer = await askUntil(
    ask,
    `Day on which the frames were taken, such as 2025-03-14?${proposal} `,
    (text) => (day !== null && /^y(?:es)?$/i.test(text) ? day.day : readDay(text)),
  );
  return answer === null ? null : { day: answer, isStated: true };
}

async function askOfGroup(group: FrameGroup, ask: Ask): Promise<FrameGroup> {
  const names = namesOf(group.files);
  const role =
    group.role ??
    (await askUntil(ask, `What are ${names}: dark, lamp, open or filtered? `, (answer) =>
      ROLES.includes(answer.toLowerCase()) ? (answer.toLowerCase() as FrameRole) : null,
    ));
  const lamp =
    role !== 'lamp'
      ? null
      : (group.lamp ??
        (await askUntil(ask, `Gas of the lamp in ${names} (${knownLamps.join(', ')}): `, (answer) =>
          lampSpecies(answer) === null ? null : answer,
        )));
  const filter =
    role !== 'filtered'
      ? null
      : (group.filter ??
        (await askUntil(ask, `Short name of the filter in ${names} (letters, digits, dashes): `, (answer) =>
          /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/.test(answer) ? answer : null,
        )));
  const exposureMs = group.exposureMs ?? (await askUntil(ask, `Exposure of ${names} in ms: `, positive));
  return { ...group, role, lamp, filter, exposureMs };
}

function positive(answer: string): number | null {
  const value = Number(answer.replace(',', '.'));
  return value > 0 && Number.isFinite(value) ? value : null;
}
