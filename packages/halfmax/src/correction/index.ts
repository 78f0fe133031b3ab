export { type BandReader, bandReader } from './bandReader.js';
export { type BandReadings, bandReadings } from './bandReadings.js';
export { type BandShape, bandCurve, bandValue, type ShapePrior, shapePrior } from './bandShape.js';
export { type BandCorrection, correctBand, type MeasuredBand } from './correctBand.js';
export { deconvolve, type SharpenedBand } from './deconvolve.js';
export { type BandData, type BandFit, fitBand } from './fitBand.js';
export { fitTops, type LikelyFit } from './fitTops.js';
export { applySpread, type PixelSpread, type SpreadMatrix, spreadMatrix } from './spreadMatrix.js';
