import { type BeamConditions, beamOf, USUAL_BENCH_C } from './beamConditions.js';
import { type Loose, record } from './manifestValues.js';
import { type SiteConditions, siteOf } from './siteConditions.js';

/** How the filters are used, from a session's `beam` and `site`: every default filled in and named. */
export interface Conditions {
  readonly beam: BeamConditions;
  readonly site: SiteConditions;
  /** What the session does not state, with the value taken. */
  readonly assumed: readonly string[];
  /** The part of it that is of the beam. */
  readonly beamAssumed: readonly string[];
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
  if (beam.temperatureC !== null && record(manifest['bench'])['temperatureC'] === undefined)
    assumed.push(`temperature on the bench: ${USUAL_BENCH_C} °C (reference temperature of ISO 1)`);
  const beamAssumed = [...assumed];
  return { beam, site: siteOf(record(manifest['site']), beam, assumed), assumed, beamAssumed };
}
