export { combineExposures } from './combineExposures.js';
export { type DarkNoise, estimateNoise } from './estimateNoise.js';
export { groupByExposure } from './groupByExposure.js';
export { chooseExposure, type JoinedExposures, joinExposures } from './joinExposures.js';
export { type LevelRatio, levelRatio } from './levelRatio.js';
export type { FrameGroup } from './levelSamples.js';
export { lineariseCounts } from './lineariseCounts.js';
export type { NoiseEstimate } from './noiseLine.js';
export { reduceFrames } from './reduceFrames.js';
export { saturationMask } from './saturationMask.js';
export { sameExposure } from './stackDarks.js';
export type {
  CleanSpectrum,
  CombinedSpectrum,
  Detector,
  FrameEntry,
  FrameRole,
  NoiseModel,
  ReducedFrames,
  RejectedScan,
  Scan,
  Warning,
} from './types.js';
export { percent, plainNumber } from './wording.js';
