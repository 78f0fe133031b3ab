export type {
  Assumption,
  BandNumbers,
  BandQuote,
  BandReport,
  CalibrationLineReport,
  CalibrationReport,
  ClaimReport,
  CorrectionReport,
  CurveTable,
  DecisionReport,
  FilterReport,
  LineReport,
  Measurement,
  MonteCarloReport,
  Provenance,
  QuantityBudgets,
} from './measurement.js';
export { type MeasuredSession, type MeasureOptions, measureSession } from './measureSession.js';
export { type QuoteContext, quoteBand } from './quoteBand.js';
