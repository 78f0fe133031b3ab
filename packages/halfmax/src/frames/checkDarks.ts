import type { DarkStack } from './stackDarks.js';
import type { Warning } from './types.js';
import { percent, plainNumber } from './wording.js';

/** More than this share of dark values at the floor means that the converter cuts the noise off. */
const clippedShare = 0.01;

/**
 * What is wrong with the darks themselves: values cut off at the floor of the converter, and unstable pixels.
 *
 * Values are cut off when more than 1 % of them equal the lowest value and that value is zero, or at least twice as
 * frequent as the next higher one: noise that is not cut off thins out towards its lowest value.
 *
 * @param stacks - darks by exposure
 * @returns one warning per finding and exposure
 * Source: a real unit with its offset below zero gave 100 %, 36 % and 0.4 % of zeros at 10, 100 and 1000 ms (open
 * measured data); the limit of 1 % is common practice, no source.
 */
export function checkDarks(stacks: readonly DarkStack[]): Warning[] {
  const warnings: Warning[] = [];
  for (const stack of stacks) {
    const where = stack.files[0]!;
    const floor = shareAtFloor(stack);
    if (floor !== null) {
      warnings.push({
        where,
        what:
          `${percent(floor.share)} of the dark values of ${plainNumber(stack.exposureMs)} ms equal the lowest one, ` +
          `${plainNumber(floor.lowest, 6)}: the converter cuts the dark off there and the dark taken off is too high; ` +
          'raise the offset of the instrument',
      });
    }
    const unstable: number[] = [];
    for (let i = 0; i < stack.excessVariance.length; i++) if (stack.excessVariance[i]! > 0) unstable.push(i);
    if (unstable.length > 0) {
      const named = unstable.slice(0, 8).join(', ') + (unstable.length > 8 ? ', ...' : '');
      warnings.push({
        where,
        what:
          `${unstable.length} unstable pixel${unstable.length === 1 ? '' : 's'} in the darks of ` +
          `${plainNumber(stack.exposureMs)} ms (${named}): kept with their own, larger noise`,
      });
    }
  }
  return warnings;
}

function shareAtFloor(stack: DarkStack): { share: number; lowest: number } | null {
  let lowest = Number.POSITIVE_INFINITY;
  for (const scan of stack.scans) for (const value of scan.counts) if (value < lowest) lowest = value;
  let next = Number.POSITIVE_INFINITY;
  let total = 0;
  let atLowest = 0;
  for (const scan of stack.scans) {
    for (const value of scan.counts) {
      if (Number.isNaN(value)) continue;
      total++;
      if (value === lowest) atLowest++;
      else if (value < next) next = value;
    }
  }
  if (atLowest < 2) return null;
  let atNext = 0;
  for (const scan of stack.scans) for (const value of scan.counts) if (value === next) atNext++;
  const share = atLowest / total;
  if (share <= clippedShare || (lowest !== 0 && atLowest < 2 * atNext)) return null;
  return { share, lowest };
}
