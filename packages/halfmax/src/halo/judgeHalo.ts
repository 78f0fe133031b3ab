import { isAbsent, type Quantity } from '../metrics/index.js';
import { signalToNoise } from '../sky/index.js';
import type { HaloDisk, HaloLimit, HaloMeasurement } from './haloMeasurement.js';

/** From where on a halo is too much. */
export type HaloTolerance =
  /** Share of the star's light. */
  | { readonly kind: 'share'; readonly atMost: number }
  /** Magnitudes per square arcsecond above the star's magnitude. */
  | { readonly kind: 'surface'; readonly atLeast: number }
  /** Seen above the noise of sky and camera. */
  | ({ readonly kind: 'noise' } & NoiseTolerance);

/** An exposure at a site, and a patch within which the eye or a program takes the mean. */
export interface NoiseTolerance {
  readonly hours: number;
  /** Exposure and electrons a count of the measured image. */
  readonly exposureS: number;
  readonly electronsPerCount: number;
  /** Star to think of against the measured one: its magnitude less the other's; left out: 0, the same. */
  readonly brighterBy?: number;
  /** Electrons per second and pixel of the sky through the filter. */
  readonly sky: number;
  readonly dark: number;
  readonly readNoise: number;
  readonly frameS: number;
  /** Pixels of the patch. */
  readonly pixels: number;
  /** Signal to noise at which it is seen; left out: 5. */
  readonly threshold?: number;
}

/** Whether a halo matters. */
export type HaloVerdict = 'shows' | 'stays hidden' | 'undecided';

/** Verdict on one disk, or on what could be there unseen. */
export interface HaloJudgement {
  readonly verdict: HaloVerdict;
  readonly words: string;
  /** Number judged, and the limit, in the limit's unit; absent where it could not be had. */
  readonly number: number | { readonly absent: string };
  readonly limit: number;
}

const SEEN = 5;

/**
 * Holds the halos of a star against a limit that the user sets: one that is above it at both ends of its 95 % interval
 * shows, one that is below it at both stays hidden. Without a halo the upper limits are judged.
 *
 * @param measurement - of the star
 * @param tolerance - the limit
 * @returns one judgement for each disk; one for the upper limit where there is none
 * @throws {RangeError} a limit out of range
 */
export function judgeHalo(measurement: HaloMeasurement, tolerance: HaloTolerance): HaloJudgement[] {
  requireTolerance(tolerance);
  if (measurement.disks.length > 0) return measurement.disks.map((disk) => judgeDisk(disk, tolerance));
  return [judgeLimits(measurement.limits, tolerance)];
}

function judgeDisk(disk: HaloDisk, tolerance: HaloTolerance): HaloJudgement {
  const limit = limitOf(tolerance);
  const quantity = quantityOf(disk, tolerance);
  if (isAbsent(quantity))
    return { verdict: 'undecided', words: quantity.absent, number: { absent: quantity.absent }, limit };
  const [low, high] = quantity.interval95;
  // In magnitudes the fainter, the larger.
  const above = tolerance.kind === 'surface' ? high < limit : low > limit;
  const below = tolerance.kind === 'surface' ? low > limit : high < limit;
  const verdict = above ? 'shows' : below ? 'stays hidden' : 'undecided';
  const words =
    verdict === 'undecided'
      ? 'the limit lies within the interval of 95 %'
      : `both ends of the interval of 95 % are on ${above ? 'the bright' : 'the faint'} side of the limit`;
  return { verdict, words, number: quantity.value, limit };
}

function judgeLimits(limits: readonly HaloLimit[], tolerance: HaloTolerance): HaloJudgement {
  const limit = limitOf(tolerance);
  if (limits.length === 0) {
    const absent = 'no disk could be looked for in this image';
    return { verdict: 'undecided', words: absent, number: { absent }, limit };
  }
  const numbers = limits.map((one) => {
    if (tolerance.kind === 'share') return one.shareOfStar;
    return tolerance.kind === 'surface' ? one.surfaceMagnitudes : noiseRatio(one.surfaceCounts, tolerance);
  });
  const missing = numbers.find((number) => typeof number !== 'number');
  if (missing !== undefined && typeof missing !== 'number')
    return { verdict: 'undecided', words: missing.absent, number: missing, limit };
  const known = numbers as number[];
  const worst = tolerance.kind === 'surface' ? Math.min(...known) : Math.max(...known);
  const below = tolerance.kind === 'surface' ? worst > limit : worst < limit;
  return {
    verdict: below ? 'stays hidden' : 'undecided',
    words: below
      ? 'no halo, and what could be there unseen is below the limit'
      : 'no halo, but one above the limit could be there unseen',
    number: worst,
    limit,
  };
}

function quantityOf(disk: HaloDisk, tolerance: HaloTolerance): Quantity {
  if (tolerance.kind === 'share') return disk.shareOfStar;
  if (tolerance.kind === 'surface') return disk.surfaceMagnitudes;
  const surface = disk.surfaceCounts;
  if (isAbsent(surface)) return surface;
  const [low, high] = surface.interval95;
  const at = (counts: number): number => noiseRatio(Math.max(0, counts), tolerance);
  return {
    value: at(surface.value),
    standardUncertainty: (at(high) - at(low)) / 3.92,
    interval95: [at(low), at(high)],
  };
}

/** Signal to noise of a patch of the disk. */
function noiseRatio(surfaceCounts: number, tolerance: NoiseTolerance): number {
  const {
    hours,
    exposureS,
    electronsPerCount,
    brighterBy = 0,
    sky,
    dark,
    readNoise,
    frameS,
    pixels,
  } = tolerance;
  const signal = ((surfaceCounts * electronsPerCount) / exposureS) * pixels * 10 ** (0.4 * brighterBy);
  const seconds = hours * 3600;
  return signalToNoise({ signal, sky, dark, readNoise, pixels }, seconds, Math.max(1, seconds / frameS));
}

function limitOf(tolerance: HaloTolerance): number {
  if (tolerance.kind === 'share') return tolerance.atMost;
  return tolerance.kind === 'surface' ? tolerance.atLeast : (tolerance.threshold ?? SEEN);
}

function requireTolerance(tolerance: HaloTolerance): void {
  if (tolerance.kind === 'surface') {
    if (!Number.isFinite(tolerance.atLeast)) throw new RangeError('judgeHalo requires a finite limit');
    return;
  }
  if (tolerance.kind === 'share') {
    if (!(tolerance.atMost > 0 && tolerance.atMost < 1))
      throw new RangeError(`judgeHalo requires a share between 0 and 1, got ${tolerance.atMost}`);
    return;
  }
  for (const field of ['hours', 'exposureS', 'electronsPerCount', 'frameS', 'pixels'] as const) {
    if (!(tolerance[field] > 0 && tolerance[field] < Infinity))
      throw new RangeError(`judgeHalo requires ${field} above 0, got ${tolerance[field]}`);
  }
}
