import { numericalTolerance } from './numericalTolerance.js';

/** What one block of trials says of one output. */
export interface BlockSummary {
  readonly mean: number;
  readonly standardUncertainty: number;
  readonly low: number;
  readonly high: number;
}

/** Whether the trials made so far are enough. */
export interface StopDecision {
  readonly enough: boolean;
  /** Numerical tolerance that twice each standard error must stay within; 0 where the output never varied. */
  readonly tolerance: number;
  /** Standard errors of the four averages over the blocks; absent with fewer than two blocks. */
  readonly standardErrors: BlockSummary | { readonly absent: string };
}

/**
 * Decides whether Monte Carlo results have stabilised: twice the standard error, over the blocks, of the mean, the
 * standard uncertainty and both end points must not be larger than the numerical tolerance of the uncertainty.
 *
 * @param blocks - summaries of blocks of equal size, in the unit of the output
 * @param standardUncertainty - from the trials of all blocks together, same unit
 * @param digits - significant digits wanted of the uncertainty, 1 or 2
 * @param divisor - the tolerance is divided by this; 1 by default, 5 where the result is to judge another method
 *   (JCGM 101:2008, 8.2, from memory)
 * @returns decision, tolerance and standard errors
 * @throws {RangeError} no block, or arguments out of range
 *
 * Source: JCGM 101:2008, 7.9.4.
 */
export function adaptiveStop(
  blocks: readonly BlockSummary[],
  standardUncertainty: number,
  digits: number,
  divisor = 1,
): StopDecision {
  if (blocks.length === 0) throw new RangeError('adaptiveStop requires at least 1 block, got 0');
  if (!(divisor >= 1)) throw new RangeError(`adaptiveStop requires divisor >= 1, got ${divisor}`);
  const tolerance = standardUncertainty === 0 ? 0 : numericalTolerance(standardUncertainty, digits) / divisor;
  if (blocks.length < 2) {
    return {
      enough: false,
      tolerance,
      standardErrors: { absent: 'a standard error needs at least two blocks' },
    };
  }
  const standardErrors = {
    mean: standardError(blocks.map((block) => block.mean)),
    standardUncertainty: standardError(blocks.map((block) => block.standardUncertainty)),
    low: standardError(blocks.map((block) => block.low)),
    high: standardError(blocks.map((block) => block.high)),
  };
  const enough = Object.values(standardErrors).every((error) => 2 * error <= tolerance);
  return { enough, tolerance, standardErrors };
}

function standardError(values: readonly number[]): number {
  const h = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / h;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(squares / (h * (h - 1)));
}
