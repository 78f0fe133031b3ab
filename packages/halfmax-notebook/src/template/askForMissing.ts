import { knownLamps, lampSpecies, resolveLines } from 'halfmax/reference';
import { namesOf } from './surveyFolder.js';
import type { FolderSurvey, FrameGroup, FrameRole } from './types.js';

/** Puts a question to a person; an empty answer means that it stays open. */
export type Ask = (question: string) => Promise<string>;

const ROLES: readonly string[] = ['dark', 'lamp', 'open', 'filtered'];
const MOST_TRIES = 3;

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
    lines[id] = await until(ask, question, (answer) => {
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
    (await until(ask, `From which count on is a pixel not to be trusted?${seen} `, positive));
  return { ...survey, groups, lines, saturationCounts };
}

async function askOfGroup(group: FrameGroup, ask: Ask): Promise<FrameGroup> {
  const names = namesOf(group.files);
  const role =
    group.role ??
    (await until(ask, `What are ${names}: dark, lamp, open or filtered? `, (answer) =>
      ROLES.includes(answer.toLowerCase()) ? (answer.toLowerCase() as FrameRole) : null,
    ));
  const lamp =
    role !== 'lamp'
      ? null
      : (group.lamp ??
        (await until(ask, `Gas of the lamp in ${names} (${knownLamps.join(', ')}): `, (answer) =>
          lampSpecies(answer) === null ? null : answer,
        )));
  const filter =
    role !== 'filtered'
      ? null
      : (group.filter ??
        (await until(ask, `Short name of the filter in ${names} (letters, digits, dashes): `, (answer) =>
          /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/.test(answer) ? answer : null,
        )));
  const exposureMs = group.exposureMs ?? (await until(ask, `Exposure of ${names} in ms: `, positive));
  return { ...group, role, lamp, filter, exposureMs };
}

/** Asks again after an answer that cannot be, at most three times. */
async function until<T>(ask: Ask, question: string, read: (answer: string) => T | null): Promise<T | null> {
  for (let k = 0; k < MOST_TRIES; k++) {
    const answer = (await ask(k === 0 ? question : `That cannot be. ${question}`)).trim();
    if (answer === '') return null;
    const value = read(answer);
    if (value !== null) return value;
  }
  return null;
}

function positive(answer: string): number | null {
  const value = Number(answer.replace(',', '.'));
  return value > 0 && Number.isFinite(value) ? value : null;
}
