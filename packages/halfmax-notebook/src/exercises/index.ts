export { checkHalfLevel } from './checkHalfLevel.js';
export { checkNoisyPeak, type PeakAnswer } from './checkNoisyPeak.js';
export { checkPeakFactor, type PeakPair } from './checkPeakFactor.js';
export { checkSquares, type GaussianWidths } from './checkSquares.js';
export { type BandTable, checkWidth } from './checkWidth.js';
export { type Feedback, feedbackText, type NumberAnswer } from './feedback.js';
