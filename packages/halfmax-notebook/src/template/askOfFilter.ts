import { resolveLines } from 'halfmax/reference';
import { type Ask, askUntil } from './askUntil.js';
import { readClaim } from './readClaim.js';
import { readPrice } from './readPrice.js';
import type { FilterFacts } from './types.js';

/** Lines further apart than this are not in one band: common practice, no source. */
const ONE_BAND_NM = 15;
const FORMS = 'such as 3, 3 +/- 0.4, 3 -0.2 +0.5, at most 3.5';
const SHARES = 'such as at least 0.9, at least 90 %';

/**
 * Asks what only its data sheet and its bill tell of a filter.
 *
 * @param id - of the filter
 * @param lines - names of the emission lines that it is for; null where that stays open
 * @param ask - puts one question
 * @returns what was answered; what was left empty is left out
 */
export async function askOfFilter(
  id: string,
  lines: readonly string[] | null,
  ask: Ask,
): Promise<FilterFacts> {
  const label = await askUntil(ask, `Name of the filter ${id} for tables and figures (empty: ${id}): `, text);
  const hasSheet = await askUntil(
    ask,
    `Has ${id} a data sheet whose numbers shall be judged (yes, or empty)? `,
    yesOrNo,
  );
  const claims = hasSheet === true ? await askForClaims(id, hasOneBand(lines), ask) : {};
  const price = await askUntil(ask, `Price of ${id} with its currency, such as 349 EUR: `, readPrice);
  return {
    ...(label === null ? {} : { label }),
    ...(Object.keys(claims).length === 0 ? {} : { claims }),
    ...(price === null ? {} : { price }),
  };
}

/** The claims in the order in which data sheets state them; the centre where there is one band for it. */
async function askForClaims(
  id: string,
  isOne: boolean,
  ask: Ask,
): Promise<NonNullable<FilterFacts['claims']>> {
  const claims: Record<string, object> = {};
  for (const { name, question, kind } of [
    ...(isOne ? [{ name: 'centreNm', question: `Centre in nm, ${FORMS}`, kind: 'length' as const }] : []),
    { name: 'fwhmNm', question: `Width (FWHM) in nm, ${FORMS}`, kind: 'length' as const },
    { name: 'peakTransmittance', question: `Peak transmittance, ${SHARES}`, kind: 'fraction' as const },
    {
      name: 'transmittanceAtLine',
      question: `Transmittance at the line, ${SHARES}`,
      kind: 'fraction' as const,
    },
  ]) {
    const claim = await askUntil(ask, `${id}: ${question}: `, (answer) => readClaim(answer, kind));
    if (claim !== null) claims[name] = claim;
  }
  const blocking = await askUntil(
    ask,
    `${id}: Blocking as optical density and its range in nm, such as at least 4 from 400 to 630: `,
    readBlocking,
  );
  return blocking === null ? claims : { ...claims, opticalDensity: blocking };
}

function readBlocking(answer: string): object | null {
  const form =
    /^(?:OD\s*)?(.+?)\s*(?:from|between|,)?\s*(\d{3,4})\s*(?:nm)?\s*(?:to|and|-|–)\s*(\d{3,4})\s*(?:nm)?$/i;
  const [, density = '', from, to] = form.exec(answer.trim()) ?? [];
  const claim = readClaim(density.replace(/^OD\s*/i, ''), 'length');
  return claim === null || !(Number(from) < Number(to))
    ? null
    : { ...claim, fromNm: Number(from), toNm: Number(to) };
}

function hasOneBand(lines: readonly string[] | null): boolean {
  const found = (lines ?? []).flatMap((name) => resolveLines(name) ?? []).map((line) => line.wavelengthNm);
  return found.length === 0 || Math.max(...found) - Math.min(...found) < ONE_BAND_NM;
}

function text(answer: string): string | null {
  return answer.length <= 200 ? answer : null;
}

function yesOrNo(answer: string): boolean | null {
  if (/^y(?:es)?$/i.test(answer)) return true;
  return /^no?$/i.test(answer) ? false : null;
}
