import { BadInputError } from '../errors.js';
import type { Warning } from '../frames/index.js';
import {
  type HaloComparison,
  type HaloMeasurement,
  type HaloResult,
  measureHalo,
  type ReferenceProfile,
  type StarFlux,
  starFluxFromMagnitude,
  starFluxFromShort,
  wingReference,
} from '../halo/index.js';
import type { Absent } from '../metrics/index.js';
import { randomStream } from '../numeric/index.js';
import type { StarEntry, StarPicture } from '../session/benchSession.js';
import { type ComparedStar, compareStars } from './compareStars.js';

/** Images of one star: they are measured together, for they are compared. */
export interface StarJob {
  readonly stars: readonly StarEntry[];
  readonly seed: number;
}

/** What an image of a star gave. */
export interface MeasuredStar {
  /** Place in the session's `stars`. */
  readonly index: number;
  readonly measurement: HaloMeasurement | Absent;
  readonly warnings: readonly Warning[];
}

/** The images of one star measured and compared. */
export interface MeasuredStars {
  readonly stars: readonly MeasuredStar[];
  /**
   * One for each disk that an image shows, the filter that shows it most first; null for a single image. Labels are the
   * places in the session's `stars`.
   */
  readonly comparisons: readonly HaloComparison[] | Absent | null;
}

/**
 * Puts the images of a session's stars together by star; those that name none count as of one star.
 *
 * @param stars - entries of the session
 * @param seed - of the measurement
 * @returns a job for each star, in the order of the session
 */
export function starJobs(stars: readonly StarEntry[], seed: number): StarJob[] {
  const groups = new Map<string | null, StarEntry[]>();
  for (const entry of stars) {
    const group = groups.get(entry.star);
    if (group === undefined) groups.set(entry.star, [entry]);
    else group.push(entry);
  }
  return Array.from(groups.values(), (group) => ({ stars: group, seed }));
}

/**
 * Measures the images of one star. One that cannot be measured is told in a warning; the others go on.
 *
 * @param job - images, seed
 * @param onStep - told before each image
 * @returns measurements and their comparison
 */
export function measureStars({ stars, seed }: StarJob, onStep: (step: string) => void): MeasuredStars {
  const compared: ComparedStar[] = [];
  const measured = stars.map((entry): MeasuredStar => {
    const { index } = entry;
    onStep(`measure the star of ${entry.picture.file}`);
    const warnings: Warning[] = [];
    let reason = '';
    const attempt = <T>(field: string, then: string, step: () => T): T | null => {
      try {
        return step();
      } catch (fault) {
        if (!(fault instanceof BadInputError)) throw fault;
        for (const { where, what, fix } of fault.problems) {
          warnings.push({ where, what: `stars[${index}].${field}: ${what}; ${fix} (${then})` });
          reason = what;
        }
        return null;
      }
    };
    const light = attempt('shortFile', 'the light of the star is not taken from it', () => lightOf(entry));
    const wings = attempt('referenceFile', 'the wings are modelled instead', () => wingsOf(entry, seed));
    const result = attempt('file', 'its halos are not measured', () =>
      haloIn(entry, entry.picture, seed, light, wings),
    );
    if (result === null) return { index, measurement: { absent: reason }, warnings };
    compared.push({ entry, result });
    return { index, measurement: result.measurement, warnings };
  });
  return { stars: measured, comparisons: stars.length < 2 ? null : compareStars(compared) };
}

const FEWEST_DRAWS = 100;

function lightOf({ light, saturationCounts }: StarEntry): StarFlux | null {
  if (light === null) return null;
  if (light.kind === 'magnitude')
    return starFluxFromMagnitude(light.magnitude, light.zeroPoint, light.uncertainty);
  const { image, file } = light.picture;
  return starFluxFromShort(image, saturationCounts, light.exposureRatio, file);
}

function wingsOf(entry: StarEntry, seed: number): ReferenceProfile | null {
  if (entry.reference === null) return null;
  // Its own disks are of no interest: the fewest draws of their uncertainties will do.
  return wingReference(haloIn(entry, entry.reference, seed, null, null, FEWEST_DRAWS));
}

function haloIn(
  entry: StarEntry,
  { file, image }: StarPicture,
  seed: number,
  star: StarFlux | null,
  reference: ReferenceProfile | null,
  draws?: number,
): HaloResult {
  const { near, focalLengthMm, obstruction, pixelSizeUm, fNumber, saturationCounts } = entry;
  const setup = {
    name: file,
    pixelSizeUm,
    fNumber,
    saturationCounts,
    ...(focalLengthMm === null ? {} : { focalLengthMm }),
    ...(obstruction === null ? {} : { obstruction }),
    ...(star === null ? {} : { star }),
    ...(reference === null ? {} : { reference }),
    ...(draws === undefined ? {} : { draws }),
    ...(near === null ? {} : { near: { x: near.x - image.offset[0], y: near.y - image.offset[1] } }),
  };
  return measureHalo(image, setup, randomStream(starSeed(seed, file)));
}

/** A seed for each file of its own: order and number of other images do not matter. */
function starSeed(seed: number, file: string): number {
  let hash = seed ^ 0x5bd1e995;
  for (const sign of file) hash = Math.imul(hash ^ sign.codePointAt(0)!, 0x01000193);
  return hash >>> 0;
}
