import { splitStream } from '../numeric/index.js';
import { detectedSky } from './detectedSky.js';
import type { Response, Sky } from './types.js';

/** Part of a sky, and how strong it is in each trial, against the sky as stated. */
export interface SkyPart {
  readonly sky: Sky;
  /** Factors, the k-th of every part of one trial; their count is the count of trials. */
  readonly factors: Float64Array;
}

/** A sky whose strength is not known exactly. */
export interface UncertainSky {
  /** As stated: the sum of the parts at factors of 1. */
  readonly sky: Sky;
  readonly trials: readonly SkyPart[];
}

/** Seed and count of trials of a sky: filters under one sky share them, so that the sky drops out between them. */
export interface SkyTrialOptions {
  /** Whole number from 0 to 2^32 - 1. @default 1 */
  readonly seed?: number;
  /** @default 2000 */
  readonly draws?: number;
}

/** A camera's view of a sky, part for part. */
export interface DetectedParts {
  readonly sky: Sky;
  readonly trials: readonly SkyPart[];
}

/**
 * What a camera detects of a sky and of each of its parts.
 *
 * @param sky - known exactly, or with trials of its strength
 * @param responses - to be multiplied: quantum efficiency, a channel
 * @returns the same in electrons; a sky that is known exactly has one part with a factor of 1
 * @throws {RangeError} as `detectedSky`
 */
export function detectedParts(sky: Sky | UncertainSky, ...responses: readonly Response[]): DetectedParts {
  const detect = (one: Sky): Sky =>
    responses.reduce((seen: Sky, response) => detectedSky(seen, response), one);
  if (!('trials' in sky)) {
    const seen = detect(sky);
    return { sky: seen, trials: [{ sky: seen, factors: Float64Array.of(1) }] };
  }
  return {
    sky: detect(sky.sky),
    trials: sky.trials.map((part) => ({ sky: detect(part.sky), factors: part.factors })),
  };
}

/**
 * Trials of a strength that is known to a relative uncertainty: a lognormal of mean 1.
 *
 * @param relative - relative standard uncertainty, 0 or more
 * @param options - seed and count
 * @param stream - number of the stream: strengths of different streams are independent
 * @returns factors above 0
 * @throws {RangeError} an uncertainty below 0
 * Source: own choice: a strength cannot be below 0, so its logarithm is taken as normal.
 */
export function strengthTrials(
  relative: number,
  { seed = 1, draws = 2000 }: SkyTrialOptions,
  stream: number,
): Float64Array {
  if (!(relative >= 0 && relative < Infinity))
    throw new RangeError(`strengthTrials requires an uncertainty of 0 or more, got ${relative}`);
  const variance = Math.log1p(relative * relative);
  const sigma = Math.sqrt(variance);
  const random = splitStream(seed, stream);
  return Float64Array.from({ length: draws }, () => Math.exp(sigma * random.normal() - variance / 2));
}
