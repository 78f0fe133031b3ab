export type { BandEdge, BandMetrics, DescribeBandOptions, OtherDefinitions } from './bandMetrics.js';
export { describeBand } from './describeBand.js';
export { type FindBandsOptions, findBands } from './findBands.js';
export { type HalfCrossings, halfCrossings, halfCrossingsOf } from './halfCrossings.js';
export { type LocalWeights, localWeights } from './localWeights.js';
export {
  type Blocking,
  type BlockingOptions,
  type OpticalDensity,
  opticalDensityIn,
  type PlacedOpticalDensity,
} from './opticalDensityIn.js';
export { type Leak, type OutOfBand, type OutOfBandOptions, outOfBand } from './outOfBand.js';
export { absent, isAbsent, quantity } from './quantity.js';
export { type TransmittanceAtOptions, transmittanceAt, transmittanceWeights } from './transmittanceAt.js';
export type { Absent, BandOptions, BandRange, Curve, Measured, Quantity } from './types.js';
