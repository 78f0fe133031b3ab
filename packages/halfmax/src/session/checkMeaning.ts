import { beamProblems } from '../beam/index.js';
import type { InputProblem } from '../errors.js';
import type { Warning } from '../frames/types.js';
import { knownLamps, lampSpecies, resolveLines } from '../reference/index.js';
import { siteProblems } from '../sky/index.js';
import { checkStars } from './checkStars.js';
import { asList, asNumber, asRecord, asText, type LooseRecord } from './manifest.js';
import { nearestName } from './nearestName.js';
import { parseTime } from './parseTime.js';
import { quoteValue } from './quoteValue.js';

/** Collects what is found. */
interface Findings {
  readonly problems: InputProblem[];
  readonly warnings: Warning[];
  refuse(place: string, what: string, fix: string): void;
  warn(what: string): void;
}

function checkDetector(detector: LooseRecord, found: Findings): void {
  const start = asNumber(detector['wavelengthStartNm']);
  const end = asNumber(detector['wavelengthEndNm']);
  if (start !== null && start === end) {
    found.refuse(
      'detector.wavelengthEndNm',
      `is ${end}, the same as wavelengthStartNm`,
      'give the two ends, or neither',
    );
  }
  if ((start === null) !== (end === null)) {
    found.warn('detector: only one of wavelengthStartNm and wavelengthEndNm is given; it is not used');
  }
}

function checkFilters(filters: readonly LooseRecord[], found: Findings): void {
  const seen = new Map<string, number>();
  if (filters.length === 0) found.warn('filters is empty: only the calibration is measured');
  filters.forEach((filter, i) => {
    const place = `filters[${i}]`;
    const id = asText(filter['id']);
    if (id !== null) {
      const first = seen.get(id.toLowerCase());
      if (first !== undefined) {
        const what = `${quoteValue(id)} is taken by filters[${first}] (upper and lower case count as the same)`;
        found.refuse(`${place}.id`, what, 'give each filter its own id');
      } else seen.set(id.toLowerCase(), i);
    }
    const lines = asList(filter['lines']);
    lines.forEach((line, k) => {
      if (typeof line !== 'string' || line === '' || resolveLines(line) !== null) return;
      const fix =
        'use a name from the table of emission lines, such as "H-alpha", "[O III]" or "[S II] 671.6"';
      found.refuse(`${place}.lines[${k}]`, `${quoteValue(line)} is not a known emission line`, fix);
    });
    const claims = asRecord(filter['claims']);
    if (claims['transmittanceAtLine'] !== undefined && Array.isArray(filter['lines']) && lines.length === 0) {
      const what = 'speaks of a line, but the filter names none';
      found.refuse(`${place}.claims.transmittanceAtLine`, what, `name it in ${place}.lines`);
    }
    const density = asRecord(claims['opticalDensity']);
    const fromNm = asNumber(density['fromNm']);
    const toNm = asNumber(density['toNm']);
    if (fromNm !== null && toNm !== null && fromNm >= toNm) {
      found.refuse(
        `${place}.claims.opticalDensity.toNm`,
        `is ${toNm}, must be above fromNm ${fromNm}`,
        'swap or correct them',
      );
    }
    for (const [name, claim] of Object.entries(claims)) {
      if (asRecord(claim)['tolerance'] === undefined || asRecord(claim)['value'] !== undefined) continue;
      found.warn(`${place}.claims.${name}.tolerance belongs to a value, not to a limit; not used`);
    }
  });
}

function checkFrame(frame: LooseRecord, i: number, ids: readonly string[], found: Findings): void {
  const place = `frames[${i}]`;
  const role = asText(frame['role']);
  const lamp = asText(frame['lamp']);
  const filter = asText(frame['filter']);
  if (role === 'lamp' && lamp !== null && lamp !== '' && lampSpecies(lamp) === null) {
    found.refuse(
      `${place}.lamp`,
      `${quoteValue(lamp)} is not a known lamp`,
      `use one of ${knownLamps.join(', ')}`,
    );
  }
  if (role !== 'lamp' && lamp !== null)
    found.warn(`${place}.lamp has no meaning for a frame of role ${quoteValue(role)}; not used`);
  if (role === 'filtered' && filter !== null && !ids.includes(filter)) {
    const near = nearestName(filter, ids);
    const fix =
      near === null
        ? `use one of ${ids.slice(0, 20).map(quoteValue).join(', ') || 'the ids in filters (there are none)'}`
        : `did you mean ${quoteValue(near)}?`;
    found.refuse(`${place}.filter`, `${quoteValue(filter)} is not the id of any filter`, fix);
  }
  if (role !== 'filtered' && filter !== null)
    found.warn(`${place}.filter has no meaning for a frame of role ${quoteValue(role)}; not used`);
  const takenAt = asText(frame['takenAt']);
  if (takenAt !== null && /^\d{4}-\d{2}-\d{2}T/.test(takenAt) && parseTime(takenAt) === null) {
    found.refuse(
      `${place}.takenAt`,
      `${quoteValue(takenAt)} is a time that does not exist`,
      'write it like 2026-01-31T20:15:00Z',
    );
  }
}

const numbersOfRules = {
  probability: 'probability',
  multiple: 'guarded',
  coverageFactor: 'guarded',
} as const;

function checkDecision(decision: LooseRecord, found: Findings): void {
  const rule = asText(decision['rule']);
  if (rule === null) return;
  for (const [name, owner] of Object.entries(numbersOfRules)) {
    if (decision[name] === undefined || rule === owner) continue;
    found.warn(`decision.${name} has no meaning for the rule ${quoteValue(rule)}; not used`);
  }
}

const needed = [
  ['dark', 'without light, which are taken off all others'],
  ['lamp', 'of a line lamp, which give the wavelengths'],
  ['open', 'of the broadband lamp without a filter, by which the filtered ones are divided'],
] as const;

function checkRoles(frames: readonly LooseRecord[], found: Findings): void {
  if (frames.length === 0) return;
  for (const [role, purpose] of needed) {
    if (frames.some((frame) => frame['role'] === role)) continue;
    found.refuse(
      'frames',
      `has no entry of role "${role}": frames ${purpose}`,
      `take ${role} frames and add them`,
    );
  }
}

/**
 * Checks what a schema cannot say: names that must be known or agree with each other, times that exist, roles that
 * must not be absent. Works on any JSON, also where the schema found faults.
 *
 * @param manifest - parsed JSON
 * @param where - file name for messages
 * @returns every problem, and warnings
 */
export function checkMeaning(
  manifest: unknown,
  where: string,
): { problems: InputProblem[]; warnings: Warning[] } {
  const problems: InputProblem[] = [];
  const warnings: Warning[] = [];
  const found: Findings = {
    problems,
    warnings,
    refuse: (place, what, fix) => problems.push({ where, place, what, fix }),
    warn: (what) => warnings.push({ where, what }),
  };
  const root = asRecord(manifest);
  const frames = asList(root['frames']).map(asRecord);
  const filters = asList(root['filters']).map(asRecord);
  const ids = filters.map((filter) => asText(filter['id'])).filter((id) => id !== null);
  checkDetector(asRecord(root['detector']), found);
  checkDecision(asRecord(root['decision']), found);
  for (const { place, what, fix } of [
    ...beamProblems(asRecord(root['beam'])),
    ...siteProblems(asRecord(root['site'])),
  ])
    found.refuse(place, what, fix);
  if (Array.isArray(root['filters'])) checkFilters(filters, found);
  frames.forEach((frame, i) => {
    checkFrame(frame, i, ids, found);
  });
  checkRoles(frames, found);
  for (const id of new Set(ids)) {
    const used = frames.some((frame) => frame['role'] === 'filtered' && frame['filter'] === id);
    if (!used) found.warn(`filter ${quoteValue(id)} has no filtered frames; it is not measured`);
  }
  checkStars(asList(root['stars']).map(asRecord), ids, root, found);
  const recorded = asText(root['recorded']);
  if (recorded !== null && /^\d{4}-\d{2}-\d{2}/.test(recorded) && parseTime(recorded) === null) {
    found.refuse(
      'recorded',
      `${quoteValue(recorded)} is a date that does not exist`,
      'write it like 2026-01-31',
    );
  }
  return { problems, warnings };
}
