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
  /**
   * What nobody knows of the dark at this exposure, where no dark has it and none lies on the other side: standard
   * uncertainty in counts with its sign, the same unknown number of them in all pixels and at all exposures; else null.
   */
  readonly shared: Float64Array | null;
  /** Which dark exposures were used, ms. */
  readonly exposuresMs: readonly number[];
  /** What the reader should know, where the dark is not of this exposure or between two others. */
  readonly warning: string | null;
}

/**
 * The dark at an exposure: the mean of the darks of that exposure; between two exposures a straight line pixel by
 * pixel; outside them the same line carried on, with a warning and an uncertainty for the step taken;
 * with a single other exposure that dark as it is, with a warning and an uncertainty for what it may have grown.
 *
 * One exposure does not tell the offset from the dark current. If all of a dark D taken at t0 is offset, the dark at t
 * is D; if all of it is dark current, it is D t / t0. The truth lies between, nothing says where.
 *
 * @param stacks - by rising exposure, at least one
 * @param exposureMs - exposure of the light
 * @param readVariance - variance of one frame, counts^2, used for a stack that has a single frame
 * @param gain - variance per count, for the noise of warm pixels' dark current
 * @returns dark and uncertainty per pixel
 * @throws {RangeError} no stack
 * Source: dark grows with time, so that the same exposure or a line in time is needed: doi:10.1155/2011/608157.
 * What is not known is rectangular (JCGM 100:2008, 4.3.7): outside, the whole step from the nearest dark is its half
 * width; with a single exposure it runs from the dark taken off to that of dark current alone, and its root mean square
 * about the dark taken off is that whole way over the root of 3.
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
      `${plainNumber(exposureMs)} ms as they are; what the dark gains in between is not corrected: anything from ` +
      'none of the dark to all of it may grow with the exposure, which is in the uncertainty';
    const growth = exposureMs / only.exposureMs - 1;
    const shared = only.counts.map((dark) => (dark * growth) / Math.sqrt(3));
    return { ...single(only, readVariance, gain, warning), shared };
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
  const shared = outside ? new Float64Array(pixels) : null;
  const line = (first: number, second: number): number => Math.max(0, (1 - share) * first + share * second);
  for (let i = 0; i < pixels; i++) {
    counts[i] = (1 - share) * a.counts[i]! + share * b.counts[i]!;
    if (shared !== null) shared[i] = (counts[i]! - nearest.counts[i]!) / Math.sqrt(3);
    standardUncertainty[i] = Math.sqrt(
      (1 - share) ** 2 * meanVariance(a, i, readVariance, gain) +
        share ** 2 * meanVariance(b, i, readVariance, gain),
    );
    excessVariance[i] = line(a.excessVariance[i]!, b.excessVariance[i]!);
    warmCounts[i] = line(a.warmCounts[i]!, b.warmCounts[i]!);
  }
  const warning = outside
    ? `no dark of ${plainNumber(exposureMs)} ms: the dark is carried on from ${plainNumber(a.exposureMs)} and ` +
      `${plainNumber(b.exposureMs)} ms along a straight line; the whole step may be wrong, which is in the uncertainty`
    : null;
  return {
    counts,
    standardUncertainty,
    excessVariance,
    frameVariance: line(a.variance ?? 0, b.variance ?? 0),
    warmCounts,
    shared,
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
    shared: null,
    exposuresMs: [stack.exposureMs],
    warning,
  };
}

function meanVariance(stack: DarkStack, pixel: number, readVariance: number, gain: number): number {
  const frames = Math.max(1, stack.frames[pixel]!);
  const own = Math.max(stack.excessVariance[pixel]!, gain * stack.warmCounts[pixel]!);
  return ((stack.variance ?? readVariance) + own + stack.levelVariance) / frames;
}
