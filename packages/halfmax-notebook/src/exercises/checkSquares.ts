import { agrees, type Feedback, type NumberAnswer, withoutNumber } from './feedback.js';

/** Widths of an instrument and of what it shows, both Gaussian. */
export interface GaussianWidths {
  /** Width as measured, nm. */
  readonly measuredNm: number;
  /** Width of the line spread, nm, below the measured one. */
  readonly lineSpreadNm: number;
}

/** An answer counts within this share. */
const SHARE = 0.01;

/**
 * Checks the answer to: a band of Gaussian shape looks this wide through a line spread of Gaussian shape; how wide is it?
 *
 * @param answer - nm, or null
 * @param widths - as measured, and of the line spread
 * @returns feedback
 * @throws {RangeError} widths that are not above 0, or a line spread not narrower than the measured band
 * Source: variances of convolved functions add; closed form for Gaussian functions.
 */
export function checkSquares(answer: NumberAnswer, widths: GaussianWidths): Feedback {
  const { measuredNm, lineSpreadNm } = widths;
  if (!(lineSpreadNm > 0 && measuredNm > lineSpreadNm && measuredNm < Infinity))
    throw new RangeError(
      `checkSquares requires a line spread above 0 and below the measured width, got ${lineSpreadNm} and ${measuredNm}`,
    );
  const ended = withoutNumber(answer);
  if (ended !== null || answer === null) return ended!;
  const near = (value: number): boolean => agrees(answer, value, SHARE * value);
  if (near(Math.sqrt(measuredNm ** 2 - lineSpreadNm ** 2)))
    return {
      right: true,
      says: 'For two Gaussian shapes, and only for them, the squares of the widths add up.',
    };
  if (near(measuredNm - lineSpreadNm))
    return { right: false, says: 'Widths do not simply add up; their squares do, for Gaussian shapes.' };
  if (near(Math.hypot(measuredNm, lineSpreadNm)))
    return {
      right: false,
      says: 'That would be the width if the band were blurred once more. Go the other way.',
    };
  if (near(measuredNm))
    return { right: false, says: 'That is the width as measured, with the blur of the instrument in it.' };
  return {
    right: false,
    says: 'The square of the measured width is the sum of two squares. Which one is asked for?',
  };
}
