export type {
  BandNumbers,
  BandReport,
  CalibrationLineReport,
  CalibrationReport,
  ClaimReport,
  CurveTable,
  FilterReport,
  LineReport,
  Measurement,
  Provenance,
} from './measurement.js';
export { type MeasuredSession, type MeasureOptions, measureSession } from './measureSession.js';
