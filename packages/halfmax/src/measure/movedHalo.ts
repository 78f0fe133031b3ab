import {
  type HaloGeometry,
  type Layer,
  type MovedHalo,
  moveFilter,
  type SpacingMatch,
} from '../halo/index.js';
import { type Absent, absent, isAbsent } from '../metrics/index.js';

/** The filter moved before the corrector. */
export interface FilterPlaceBefore {
  /** F-number there. */
  readonly fNumber: number | Absent;
  /** Distance of the faces there, as if in air, mm; null where the session does not state it. */
  readonly spacingMm: number | null;
}

/**
 * What moving the filter before the corrector would make of a disk.
 *
 * @param geometry - of the disk
 * @param fNumber - at the sensor
 * @param before - light and spacing there
 * @param layers - from the filter to the sensor; left out: no faces are named
 * @param faces - pairs that fit the disk
 * @returns sizes and brightness, or why they cannot be told
 */
export function movedHalo(
  geometry: HaloGeometry,
  fNumber: number,
  before: FilterPlaceBefore,
  layers: readonly Layer[] | undefined,
  faces: SpacingMatch | Absent,
): MovedHalo | Absent {
  const { airSpacingMm } = geometry;
  if (typeof before.fNumber !== 'number') return before.fNumber;
  if (isAbsent(airSpacingMm)) return airSpacingMm;
  const movedSpacingMm = spacingBefore(airSpacingMm.value, before.spacingMm, layers, faces);
  if (typeof movedSpacingMm !== 'number') return movedSpacingMm;
  return moveFilter({
    airSpacingMm: airSpacingMm.value,
    fNumber,
    movedSpacingMm,
    fNumberBefore: before.fNumber,
  });
}

/** The filter's own faces keep their distance; another pair gets the one that the session states. */
function spacingBefore(
  now: number,
  stated: number | null,
  layers: readonly Layer[] | undefined,
  faces: SpacingMatch | Absent,
): number | Absent {
  const unknown = absent('the distance of the faces before the corrector is not stated');
  const first = layers?.[0];
  if (first === undefined || !('pairs' in faces)) return stated ?? unknown;
  const own = [`the front of the ${first.name}`, `the back of the ${first.name}`];
  const isFilter = (first.index ?? 1) > 1;
  const fitting = faces.pairs.filter(({ fits }) => fits);
  const counts = fitting.map((pair) =>
    isFilter ? pair.faces.filter((face) => own.includes(face)).length : 0,
  );
  if (counts.length === 0) return stated ?? unknown;
  if (counts.every((count) => count === 2)) return now;
  if (isFilter && counts.every((count) => count === 0))
    return absent('the faces that fit lie behind the filter: moving it does not change this disk');
  return stated ?? unknown;
}
