import type { ComparedHalo } from '../halo/index.js';
import type { Absent } from '../metrics/index.js';

/** An image of a star that could not be measured: an entry of `halos` in measurement.json. */
export interface AbsentHalo extends Absent {
  readonly filter: string;
  readonly image: string;
}

/** One disk in the images of one star: the light within the same annulus through each filter. */
export interface ComparedDisk {
  /** Annulus, micrometres on the sensor. */
  readonly innerUm: number;
  readonly outerUm: number;
  /** The filter that shows it most first; ratios are over that one. */
  readonly filters: readonly (Omit<ComparedHalo, 'label'> & {
    readonly filter: string;
    readonly image: string;
  })[];
}

/** The filters on one star, on the same scale: an entry of `haloComparisons`. */
export type HaloComparisonReport = {
  /** Null where the session does not name the star: all such images are taken to show the same one. */
  readonly star: string | null;
} & ({ readonly disks: readonly ComparedDisk[] } | Absent);
