import { type DarkStack, sameExposure } from './stackDarks.js';
import { plainNumber } from './wording.js';

/** The dark to be taken off at one exposure. */
export interface DarkLevel {
  /** Counts; NaN where no dark is defined. */
  readonly counts: Float64Array;
  /** Standard uncertainty per pixel, counts. */
  readonly standardUncertainty: Float64Array;
  /** Variance of one frame of an unstable pixel above the common noise, counts^2. */
  readonly excessVariance: Float64Array;
  /** Variance of one dark frame at this exposure, common to the pixels, counts^2; 0 where it is not known. */
  readonly frameVariance: number;
  /** Counts by which the dark of a warm pixel stands above the others, else 0. */
  readonly warmCounts: Float64Array;
  /** Which dark exposures were used, ms. */
  readonly exposuresMs: readonly number[];
  /** What the reader should know, where the dark is not of this exposure or between two others. */
  readonly warning: string | null;
}

/**
 * The dark at an exposure: the mean of the darks of that exposure; between two exposures a straight line pixel by
 * pixel; outside them the same line carried on, with a warning and an uncertainty for the step taken;
 * with a single other exposure that dark as it is, with a warning.
 *
 * @param stacks - by rising exposure, at least one
 * @param exposureMs - exposure of the light
 * @param readVariance - variance of one frame, counts^2, used for a stack that has a single frame
 * @param gain - variance per count, for the noise of warm pixels' dark current
 * @returns dark and uncertainty per pixel
 * @throws {RangeError} no stack
 * Source: dark grows with time, so that the same exposure or a line in time is needed: doi:10.1155/2011/608157.
 * Outside, the whole step from the nearest dark is taken as the half width of a rectangular distribution
 * (JCGM 100:2008, 4.3.7).
 */
export function darkAt(
  stacks: readonly DarkStack[],
  exposureMs: number,
  readVariance: number,
  gain = 0,
): DarkLevel {
  if (stacks.length === 0) throw new RangeError('darkAt requires at least 1 stack, got 0');
  const same = stacks.find((stack) => Math.abs(stack.exposureMs - exposureMs) <= sameExposure * exposureMs);
  if (same !== undefined) return single(same, readVariance, gain, null);
  if (stacks.length === 1) {
    const only = stacks[0]!;
    const warning =
      `the only darks have ${plainNumber(only.exposureMs)} ms and are taken off the light of ` +
      `${plainNumber(exposureMs)} ms as they are; what the dark gains in between is not corrected`;
    return single(only, readVariance, gain, warning);
  }
  let upper = stacks.findIndex((stack) => stack.exposureMs > exposureMs);
  const outside = upper <= 0;
  if (upper < 0) upper = stacks.length - 1;
  if (upper === 0) upper = 1;
  const a = stacks[upper - 1]!;
  const b = stacks[upper]!;
  const share = (exposureMs - a.exposureMs) / (b.exposureMs - a.exposureMs);
  const nearest = share < 0 ? a : b;

  const pixels = a.counts.length;
  const counts = new Float64Array(pixels);
  const standardUncertainty = new Float64Array(pixels);
  const excessVariance = new Float64Array(pixels);
  const warmCounts = new Float64Array(pixels);
  const line = (first: number, second: number): number => Math.max(0, (1 - share) * first + share * second);
  for (let i = 0; i < pixels; i++) {
    counts[i] = (1 - share) * a.counts[i]! + share * b.counts[i]!;
    const step = outside ? (counts[i]! - nearest.counts[i]!) ** 2 / 3 : 0;
    standardUncertainty[i] = Math.sqrt(
      (1 - share) ** 2 * meanVariance(a, i, readVariance, gain) +
        share ** 2 * meanVariance(b, i, readVariance, gain) +
        step,
    );
    excessVariance[i] = line(a.excessVariance[i]!, b.excessVariance[i]!);
    warmCounts[i] = line(a.warmCounts[i]!, b.warmCounts[i]!);
  }
  const warning = outside
    ? `no dark of ${plainNumber(exposureMs)} ms: the dark is carried on from ${plainNumber(a.exposureMs)} and ` +
      `${plainNumber(b.exposureMs)} ms along a straight line`
    : null;
  return {
    counts,
    standardUncertainty,
    excessVariance,
    frameVariance: line(a.variance ?? 0, b.variance ?? 0),
    warmCounts,
    exposuresMs: [a.exposureMs, b.exposureMs],
    warning,
  };
}

function single(stack: DarkStack, readVariance: number, gain: number, warning: string | null): DarkLevel {
  return {
    counts: stack.counts.slice(),
    standardUncertainty: Float64Array.from(stack.counts, (_, i) =>
      Math.sqrt(meanVariance(stack, i, readVariance, gain)),
    ),
    excessVariance: stack.excessVariance.slice(),
    frameVariance: stack.variance ?? 0,
    warmCounts: stack.warmCounts.slice(),
    exposuresMs: [stack.exposureMs],
    warning,
  };
}

function meanVariance(stack: DarkStack, pixel: number, readVariance: number, gain: number): number {
  const frames = Math.max(1, stack.frames[pixel]!);
  const own = Math.max(stack.excessVariance[pixel]!, gain * stack.warmCounts[pixel]!);
  return ((stack.variance ?? readVariance) + own + stack.levelVariance) / frames;
}
