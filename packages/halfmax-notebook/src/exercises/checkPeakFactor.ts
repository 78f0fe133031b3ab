import { agrees, type Feedback, type NumberAnswer, withoutNumber } from './feedback.js';

/** A band as it is and as it is seen. */
export interface PeakPair {
  /** Peak transmittance of the band itself, fraction. */
  readonly trueTransmittance: number;
  /** Peak transmittance as measured, fraction. */
  readonly measuredTransmittance: number;
}

/** An answer counts within this share. */
const SHARE = 0.01;

/**
 * Checks the answer to: the line spread lowers the peak of a band and leaves its area as it is; by which factor does
 * the area over the peak grow, a measure of the width?
 *
 * @param answer - a factor, or null
 * @param peaks - of the band and as measured
 * @returns feedback
 * @throws {RangeError} peaks that are not above 0
 * Source: a convolution with a profile of area 1 keeps the area.
 */
export function checkPeakFactor(answer: NumberAnswer, peaks: PeakPair): Feedback {
  const { trueTransmittance, measuredTransmittance } = peaks;
  if (!(trueTransmittance > 0 && measuredTransmittance > 0))
    throw new RangeError(
      `checkPeakFactor requires peaks above 0, got ${trueTransmittance} and ${measuredTransmittance}`,
    );
  const ended = withoutNumber(answer);
  if (ended !== null || answer === null) return ended!;
  const factor = trueTransmittance / measuredTransmittance;
  const near = (value: number): boolean => agrees(answer, value, SHARE * value);
  if (near(factor))
    return {
      right: true,
      says: 'The area stays, the peak falls: so area over peak grows by as much as the peak falls.',
    };
  if (near(1 / factor))
    return { right: false, says: 'That is by how much the peak shrinks. Does the width shrink too?' };
  if (near(factor ** 2)) return { right: false, says: 'The peak enters once only.' };
  return {
    right: false,
    says: 'Write area over peak twice, once with each peak and the same area, and divide.',
  };
}
