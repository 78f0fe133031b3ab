export { type BandReader, bandReader } from './bandReader.js';
export { type BandReadings, bandReadings } from './bandReadings.js';
export { type BandShape, bandCurve, bandValue, shapePrior } from './bandShape.js';
export { type BandCorrection, correctBand, type MeasuredBand } from './correctBand.js';
export { deconvolve, type SharpenedBand } from './deconvolve.js';
export { type BandData, type BandFit, fitBand } from './fitBand.js';
export { applySpread, type PixelSpread, type SpreadMatrix, spreadMatrix } from './spreadMatrix.js';
