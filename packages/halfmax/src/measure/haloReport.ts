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
  matchSpacings,
  type SpacingMatch,
} from '../halo/index.js';

/** A disk with what made it. */
export interface HaloDiskReport extends HaloDisk {
  readonly geometry: HaloGeometry;
  readonly faces: SpacingMatch | { readonly absent: string };
}

/** An entry of `halos` in measurement.json: a star seen through a filter. */
export interface HaloReport extends Omit<HaloMeasurement, 'disks'> {
  readonly filter: string;
  readonly disks: readonly HaloDiskReport[];
  readonly judgements: readonly HaloJudgement[] | { readonly absent: string };
}

/** What the session says of the way of the light, and the limit that the user sets. */
export interface HaloContext {
  readonly optics: HaloOptics;
  /** From the filter to the sensor; left out: no faces are named. */
  readonly layers?: readonly Layer[];
  readonly tolerance?: HaloTolerance;
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
  const { optics, layers, tolerance } = context;
  return {
    ...measurement,
    filter,
    disks: measurement.disks.map((disk) => ({
      ...disk,
      geometry: haloGeometry(disk, optics),
      faces:
        layers === undefined
          ? { absent: 'the spacings from the filter to the sensor are not given' }
          : matchSpacings(disk, optics, layers),
    })),
    judgements: tolerance === undefined ? { absent: 'no limit is given' } : judgeHalo(measurement, tolerance),
  };
}
