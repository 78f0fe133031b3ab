export { calibrate } from './calibrate.js';
export type { Calibration } from './calibration.js';
export { compareInstrumentScale, type InstrumentScaleReport } from './compareInstrumentScale.js';
export { COUPLING_PIXELS, type DispersionFit } from './describeDispersion.js';
export { dispersionAt, pixelOf, wavelengthAt, wavelengthCovariance, wavelengthsOf } from './dispersion.js';
export type { ScalePoint } from './dispersionSolution.js';
export { findLines, relocateLines } from './findLines.js';
export { fitDispersion } from './fitDispersion.js';
export { identifyScale } from './identifyScale.js';
export { type LineShape, lineShape } from './lineShape.js';
export { type CommonShape, measureLineShape } from './measureLineShape.js';
export { lineSpreadAt, measureLineSpread } from './measureLineSpread.js';
export { type NamedLine, nameLines } from './nameLines.js';
export type { LabelledLamp, NominalRange, RoughScale } from './roughScale.js';
export type {
  CalibrationLine,
  Dispersion,
  FoundLine,
  LampLines,
  LampShift,
  LampSpectrum,
  LineSpread,
} from './types.js';
