import type { Beam } from '../beam/index.js';
import { filterAngleTable, nightSkyTable } from '../reference/index.js';
import { type Loose, number, range, record } from './manifestValues.js';

/** Temperature of a bench that nobody states, degrees Celsius: the reference temperature of ISO 1. */
export const USUAL_BENCH_C = 20;

/** The telescope's light. */
export interface BeamConditions {
  /** At the filter. */
  readonly fNumbers: readonly number[];
  /** At the sensor, the same order: another where the filter sits before a reducer. */
  readonly sensorFNumbers: readonly number[];
  readonly shape: Omit<Beam, 'fNumber'>;
  readonly effectiveIndex: readonly [number, number];
  /** Temperature of the filter in use, degrees Celsius; null where nobody says. */
  readonly temperatureC: number | null;
  readonly temperatureNmPerK: readonly [number, number];
  readonly share: number;
}

/**
 * Reads a session's `beam`.
 *
 * @param stated - the field, accepted by schema and checks
 * @param assumed - gets a line for everything that is not stated
 * @returns the light with every default filled in
 */
export function beamOf(stated: Loose, assumed: string[]): BeamConditions {
  const { usual } = nightSkyTable;
  const given = stated['fNumber'];
  if (given === undefined) assumed.push(`focal ratio: f/${usual.camera.fNumber} (${usual.source})`);
  const native =
    given === undefined
      ? [usual.camera.fNumber]
      : Array.isArray(given)
        ? (given as number[])
        : [given as number];
  const reducer = record(stated['reducer']);
  const factor = number(reducer['factor'], 1);
  const sensorFNumbers = native.map((ratio) => ratio * factor);
  const index = stated['effectiveIndex'];
  if (index === undefined) {
    const [low, high] = filterAngleTable.effectiveIndex;
    assumed.push(`effective index: ${low} to ${high} (${filterAngleTable.source.slice(0, 2).join('; ')})`);
  }
  const pupil = stated['pupil'] as Beam['pupil'];
  return {
    fNumbers: reducer['filterPlace'] === 'before' ? native : sensorFNumbers,
    sensorFNumbers,
    shape: {
      centralObstruction: number(stated['centralObstruction'], 0),
      ...(pupil === undefined ? {} : { pupil }),
      chiefRayDeg: number(stated['chiefRayDeg'], 0),
      tiltDeg: number(stated['tiltDeg'], 0),
      tiltDirectionDeg: number(stated['tiltDirectionDeg'], 0),
    },
    effectiveIndex: range(index, filterAngleTable.effectiveIndex),
    temperatureC: stated['temperatureC'] === undefined ? null : number(stated['temperatureC'], 0),
    temperatureNmPerK: range(stated['temperatureNmPerK'], filterAngleTable.temperatureNmPerK),
    share: number(stated['share'], 0.9),
  };
}
