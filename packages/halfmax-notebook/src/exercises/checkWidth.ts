import { crossings } from 'halfmax/numeric';
import { agrees, type Feedback, type NumberAnswer, withoutNumber } from './feedback.js';

/** A table of a band to be read by hand. */
export interface BandTable {
  /** nm, ascending, length n >= 3. */
  readonly wavelengthNm: ArrayLike<number>;
  /** Fraction, length n. */
  readonly transmittance: ArrayLike<number>;
}

/**
 * Checks the answer to: how wide is this band between the outermost points at half of its peak? The peak is the
 * highest number of the table; between its numbers one goes along a straight line.
 *
 * @param answer - nm, or null
 * @param table - the numbers that the reader has before the eyes
 * @returns feedback; an answer counts within a quarter of the table's largest step
 * @throws {RangeError} a table without two crossings, or arrays of different lengths
 * Source: definition of the full width at half maximum, outermost crossings.
 */
export function checkWidth(answer: NumberAnswer, table: BandTable): Feedback {
  const { wavelengthNm, transmittance } = table;
  const peak = Math.max(...Array.from(transmittance));
  const places = crossings(wavelengthNm, transmittance, peak / 2);
  if (places.length < 2)
    throw new RangeError(
      `checkWidth requires a band that crosses half of its peak twice, got ${places.length} crossings`,
    );
  const ended = withoutNumber(answer);
  if (ended !== null || answer === null) return ended!;
  const outer = (list: readonly number[]): number => list[list.length - 1]! - list[0]!;
  const width = outer(places);
  const steps = Array.from(wavelengthNm)
    .slice(1)
    .map((nm, i) => nm - wavelengthNm[i]!);
  const tolerance = Math.max(...steps) / 4;
  if (agrees(answer, width, tolerance))
    return { right: true, says: 'That is the distance of the outermost points at half of the peak.' };
  if (agrees(answer, width / 2, tolerance / 2))
    return {
      right: false,
      says: 'That is half of the width, from the centre to one side. The *full* width is asked for.',
    };
  const absolute = crossings(wavelengthNm, transmittance, 0.5);
  if (absolute.length >= 2 && agrees(answer, outer(absolute), tolerance))
    return {
      right: false,
      says: 'That is the width at a transmittance of 0.5. Take half of the peak of this band.',
    };
  if (places.length > 2 && agrees(answer, places[1]! - places[0]!, tolerance))
    return {
      right: false,
      says: 'The band dips below half of its peak inside. Go on to the outermost crossing.',
    };
  return {
    right: false,
    says: `Find the two neighbours between which the table passes half of the peak, once on each side, and go along a straight line between them. Your answer is too ${answer > width ? 'large' : 'small'}.`,
  };
}
