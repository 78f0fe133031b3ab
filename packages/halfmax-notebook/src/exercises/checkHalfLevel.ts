import { agrees, type Feedback, type NumberAnswer, withoutNumber } from './feedback.js';

/** An answer counts within this share of the level. */
const SHARE = 0.01;

/**
 * Checks the answer to: at which transmittance does one read the full width at half maximum of this band?
 *
 * @param answer - transmittance as a fraction, or null
 * @param peakTransmittance - of the band, fraction above 0
 * @returns feedback
 * @throws {RangeError} a peak that is not above 0
 * Source: definition of the full width at half maximum.
 * @example
 * checkHalfLevel(0.45, 0.9).right; // => true
 */
export function checkHalfLevel(answer: NumberAnswer, peakTransmittance: number): Feedback {
  if (!(peakTransmittance > 0 && peakTransmittance < Infinity))
    throw new RangeError(`checkHalfLevel requires a peak above 0, got ${peakTransmittance}`);
  const ended = withoutNumber(answer);
  if (ended !== null || answer === null) return ended!;
  const level = peakTransmittance / 2;
  const near = (value: number): boolean => agrees(answer, value, SHARE * Math.abs(value));
  if (near(level)) return { right: true, says: 'Half of the band’s own peak, wherever that peak may be.' };
  if (near(100 * level))
    return { right: false, says: 'That is the level in per cent. Give it as a fraction, from 0 to 1.' };
  if (near(0.5))
    return {
      right: false,
      says: 'That is a transmittance of one half. The name says half of the *maximum*, and the maximum of this band is not 1.',
    };
  if (near(peakTransmittance)) return { right: false, says: 'That is the peak itself. Where is half of it?' };
  return { right: false, says: 'Read the peak of the band off the table, and take half of it.' };
}
