import { type BeamConditions, beamOf } from './beamConditions.js';
import { type Loose, record } from './manifestValues.js';
import { type SiteConditions, siteOf } from './siteConditions.js';

/** How the filters are used, from a session's `beam` and `site`: every default filled in and named. */
export interface Conditions {
  readonly beam: BeamConditions;
  readonly site: SiteConditions;
  /** What the session does not state, with the value taken. */
  readonly assumed: readonly string[];
}

/**
 * Reads a session's `beam` and `site`.
 *
 * @param manifest - the session's JSON, accepted by its schema and its checks
 * @returns conditions with every default filled in, and what was assumed
 */
export function conditionsOf(manifest: Loose): Conditions {
  const assumed: string[] = [];
  const beam = beamOf(record(manifest['beam']), assumed);
  return { beam, site: siteOf(record(manifest['site']), beam, assumed), assumed };
}
