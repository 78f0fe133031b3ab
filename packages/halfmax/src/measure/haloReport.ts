import {
  type HaloDisk,
  type HaloGeometry,
  type HaloJudgement,
  type HaloMeasurement,
  type HaloOptics,
  type HaloTolerance,
  haloGeometry,
  judgeHalo,
  type Layer,
  type MovedHalo,
  matchSpacings,
  type SpacingMatch,
} from '../halo/index.js';
import { type Absent, isAbsent } from '../metrics/index.js';
import { type FilterPlaceBefore, movedHalo } from './movedHalo.js';

/** A disk with what made it. */
export interface HaloDiskReport extends HaloDisk {
  readonly geometry: HaloGeometry;
  readonly faces: SpacingMatch | Absent;
  /** With the filter before the corrector. */
  readonly moved: MovedHalo | Absent;
}

/** An entry of `halos` in measurement.json: a star seen through a filter. */
export interface HaloReport extends Omit<HaloMeasurement, 'disks'> {
  readonly filter: string;
  readonly disks: readonly HaloDiskReport[];
  readonly judgements: readonly HaloJudgement[] | Absent;
  /** The limit behind the judgements, and which of its numbers nobody stated. */
  readonly tolerance: HaloTolerance | Absent;
  readonly assumed: readonly string[];
}

/** What the session says of the way of the light, and the limit that the user sets. */
export interface HaloContext {
  readonly optics: HaloOptics;
  /** From the filter to the sensor; left out: no faces are named. */
  readonly layers?: readonly Layer[];
  /** Left out or absent: nothing is judged. */
  readonly tolerance?: HaloTolerance | Absent;
  /** Numbers of the limit that nobody stated. */
  readonly assumed?: readonly string[];
  /** Light before the corrector; left out: nothing is said of moving the filter there. */
  readonly before?: FilterPlaceBefore;
}

/**
 * A measured star as it is written down: each disk with its geometry and the faces that fit, each judged.
 *
 * @param filter - id of the filter
 * @param measurement - of the star
 * @param context - beam, layers, limit
 * @returns plain data
 */
export function haloReport(filter: string, measurement: HaloMeasurement, context: HaloContext): HaloReport {
  const { optics, layers, tolerance = { absent: 'no limit is given' }, assumed = [], before } = context;
  return {
    ...measurement,
    filter,
    disks: measurement.disks.map((disk) => {
      const geometry = haloGeometry(disk, optics);
      const { airSpacingMm } = geometry;
      const faces =
        layers === undefined
          ? { absent: 'the spacings from the filter to the sensor are not given' }
          : isAbsent(airSpacingMm)
            ? airSpacingMm
            : matchSpacings(disk, optics, layers);
      const moved =
        before === undefined
          ? { absent: 'the f-number before the corrector is not given' }
          : movedHalo(geometry, optics.fNumber, before, layers, faces);
      return { ...disk, geometry, faces, moved };
    }),
    judgements: 'absent' in tolerance ? tolerance : judgeHalo(measurement, tolerance),
    tolerance,
    assumed,
  };
}
