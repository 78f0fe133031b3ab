import { lampSpecies } from 'halfmax/reference';
import { exposureFromName } from './exposureFromName.js';
import type { FrameRole, NameGuess } from './types.js';

const NO_FILTER = /(?<![a-z])(?:no|without)[ _-]?filter(?![a-z])|unfiltered/gi;
const WORDS: readonly [FrameRole, RegExp][] = [
  ['dark', /^darks?$/],
  ['filtered', /^(?:filtered|filters?)$/],
  ['open', /^(?:open|blank|reference|white|clear)$/],
  ['lamp', /^(?:lamps?|arc|pencil|calibration|calib)$/],
];
/** Words that name no filter and no gas. */
const FILLERS = /^(?:scans?|frames?|spectrum|spectra|raw|pen)$/;

/**
 * What a frame file's name and folders tell of it.
 *
 * @param path - relative to the session folder, `/` between folders
 * @returns role, lamp, filter and exposure, each null where the name does not tell
 * @example
 * guessFromName('lamps/lamp-hg-ar-600ms-01.tsv').lamp; // => 'Hg-Ar'
 * guessFromName('scans/filtered-ossenvale-ha-60ms-03.txt').filter; // => 'ossenvale-ha'
 */
export function guessFromName(path: string): NameGuess {
  const folders = path.split('/');
  const name = (folders.pop() ?? '').replace(/\.[a-z0-9]{1,5}$/i, '');
  const stem = [...folders, name.replace(/[ _.-]*(?<![\d.,])\d{1,5}$/, '')].join('/');
  const exposed = exposureFromName(name);
  const isOpen = name.search(NO_FILTER) >= 0;
  const words = wordsOf((exposed?.rest ?? name).replace(NO_FILTER, ' '));
  if (words.length > 1 && /^\d{1,5}$/.test(words.at(-1)!)) words.pop();
  const own = isOpen ? 'open' : roleIn(words);
  const rest = words.filter(
    (word) => !FILLERS.test(word.toLowerCase()) && (own === null || roleOf(word) !== own),
  );
  const gas = rest.length > 0 && lampSpecies(rest.join('-')) !== null ? rest.join('-') : null;
  const above = folders.reverse().map((folder) => roleIn(wordsOf(folder)));
  const role = own ?? (gas !== null ? 'lamp' : (above.find((found) => found !== null) ?? null));
  const exposureMs =
    exposed?.exposureMs ?? folders.map(exposureFromName).find((found) => found !== null)?.exposureMs;
  return {
    role,
    lamp: role === 'lamp' && gas !== null ? labelOf(gas) : null,
    filter: role === 'filtered' && rest.length > 0 ? idOf(rest) : null,
    exposureMs: exposureMs ?? null,
    stem,
  };
}

function wordsOf(text: string): string[] {
  return text.split(/[^\p{L}\p{N}]+/u).filter((word) => word !== '');
}

function roleOf(word: string): FrameRole | null {
  return WORDS.find(([, form]) => form.test(word.toLowerCase()))?.[0] ?? null;
}

/** The first role in the order of the table: a filtered scan may well say of which open scan it is the partner. */
function roleIn(words: readonly string[]): FrameRole | null {
  return WORDS.find(([role]) => words.some((word) => roleOf(word) === role))?.[0] ?? null;
}

/** `hg-ar` as `Hg-Ar`. */
function labelOf(gas: string): string {
  return (lampSpecies(gas) ?? []).map((species) => species.replace(/ I$/, '')).join('-');
}

/** A filter's id may hold letters, digits, dot, dash and underscore, at most 64. */
function idOf(words: readonly string[]): string | null {
  const id = words
    .join('-')
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9._-]/g, '')
    .slice(0, 64);
  return /^[A-Za-z0-9]/.test(id) ? id : null;
}
