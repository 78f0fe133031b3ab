export type {
  BenchConditions,
  BenchSession,
  Claim,
  FilterClaims,
  FilterEntry,
  StarEntry,
  StarLight,
  StarLimit,
  StarPicture,
} from './benchSession.js';
export { extractSession, type RoleImage } from './extractSession.js';
export { extractSpectrum } from './extractSpectrum.js';
export { findTrace } from './findTrace.js';
export { type FrameContent, fitsFrames } from './fitsFrames.js';
export { fitsPixels } from './fitsPixels.js';
export { type DelimitedTable, parseDelimited } from './parseDelimited.js';
export { type FitsImage, fitsValue, parseFits } from './parseFits.js';
export { type FitsCard, type FitsValue, parseFitsHeader } from './parseFitsHeader.js';
export { parseJcamp } from './parseJcamp.js';
export { parseJson } from './parseJson.js';
export { propagateInThreads, type ThreadedTrials } from './propagateInThreads.js';
export { type CurveFile, readCurve } from './readCurve.js';
export { readDelimitedScans } from './readDelimitedScans.js';
export { readFrameFile } from './readFrameFile.js';
export { readSession } from './readSession.js';
export { readSkySpectrum } from './readSkySpectrum.js';
export { readStarImage, type StarFile, type StarImageOptions } from './readStarImage.js';
export { sessionSchema } from './sessionSchema.generated.js';
export type { SlitImage, Trace } from './slitImage.js';
export { type ResultFile, writeResult } from './writeResult.js';
