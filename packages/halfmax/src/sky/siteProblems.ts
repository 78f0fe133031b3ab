import type { FieldProblem } from '../beam/index.js';
import { resolveLines } from '../reference/index.js';
import { knownLightSources, lightSource } from './lightSource.js';
import { responseProblems } from './responseProblems.js';
import { siteClasses } from './siteSky.js';

/**
 * What is wrong with a session's `site` that a schema cannot say: names that must be known, tables that must rise.
 *
 * @param site - the field as it stands in the file
 * @returns problems, none where all is well
 */
export function siteProblems(site: Readonly<Record<string, unknown>>): FieldProblem[] {
  const problems: FieldProblem[] = [];
  const add = (place: string, what: string, fix: string): void => {
    problems.push({ place: `site.${place}`, what, fix });
  };
  const className = site['siteClass'];
  if (typeof className === 'string' && !siteClasses.includes(className)) {
    add('siteClass', `"${className}" is not a known class of site`, `use one of ${siteClasses.join(', ')}`);
  }
  const lamps = Array.isArray(site['lightSources']) ? (site['lightSources'] as unknown[]) : [];
  let total = 0;
  lamps.forEach((lamp, i) => {
    const { source, share } = (lamp ?? {}) as { source?: unknown; share?: unknown };
    if (typeof share === 'number') total += share;
    if (typeof source !== 'string' || source === '' || lightSource(source) !== null) return;
    const fix = `use one of ${knownLightSources.join(', ')}`;
    add(`lightSources[${i}].source`, `"${source}" is not a known light source`, fix);
  });
  if (lamps.length > 0 && !(total > 0)) {
    add(
      'lightSources',
      'has no share above 0',
      'give each source its share of the light, or leave the field out',
    );
  }
  problems.push(...responseProblems(site));
  const targets = Array.isArray(site['targets']) ? (site['targets'] as unknown[]) : [];
  targets.forEach((target, i) => {
    const { line } = (target ?? {}) as { line?: unknown };
    if (typeof line !== 'string' || resolveLines(line) !== null) return;
    add(
      `targets[${i}].line`,
      `"${line}" is not a known emission line`,
      'use a name from the table of emission lines, such as "H-alpha", "[O III]" or "[S II] 671.6"',
    );
  });
  return problems;
}
