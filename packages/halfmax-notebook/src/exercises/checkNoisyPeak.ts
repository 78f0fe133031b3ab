import { type Feedback, unanswered } from './feedback.js';

/** What noise does to the highest of many numbers. */
export type PeakAnswer = 'too high' | 'too low' | 'neither' | null;

/**
 * Checks the answer to: a band has a flat top of many pixels, each with the same noise. If one takes the highest pixel
 * for the peak, does the peak come out too high on average, too low, or neither?
 *
 * @param answer - one of the three, or null
 * @returns feedback
 * Source: the expected largest of n normal numbers is above their mean for n of 2 and more; H. A. David,
 * H. N. Nagaraja, Order Statistics (2003), from memory.
 */
export function checkNoisyPeak(answer: PeakAnswer): Feedback {
  if (answer === null || answer === undefined) return unanswered;
  if (answer === 'too high')
    return {
      right: true,
      says: 'Among many pixels one is sure to have been lifted by its noise, and it is that one which is picked. Half of it is too high as well, and the width read there too small.',
    };
  if (answer === 'neither')
    return {
      right: false,
      says: 'True for a pixel chosen beforehand. But here the pixel is chosen *because* it is the highest.',
    };
  if (answer === 'too low')
    return { right: false, says: 'Noise lifts some pixels and lowers others. Which of them is picked?' };
  return { right: false, says: "Answer with 'too high', 'too low' or 'neither'." };
}
