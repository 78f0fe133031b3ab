export { beamReport } from './beamReport.js';
export { calibrateSession, instrumentScaleOf } from './calibrateSession.js';
export {
  type Candidate,
  type ComparedFilter,
  type Comparison,
  compareFilters,
} from './compareFilters.js';
export { type Conditions, conditionsOf } from './conditions.js';
export { type CurveInUse, curveInUse } from './curveInUse.js';
export { curveOnScale, type ScaledCurve } from './curveOnScale.js';
export type { AbsentHalo, ComparedDisk, HaloComparisonReport } from './haloComparison.js';
export {
  type HaloContext,
  type HaloDiskReport,
  type HaloReport,
  haloReport,
} from './haloReport.js';
export { type BandLook, type FilterLook, lookAtSession, type SessionLook } from './lookAtSession.js';
export { type FilterOptions, type MeasuredFilter, measureFilter } from './measureFilter.js';
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
export { measureSession } from './measureSession.js';
export {
  type MeasuredStar,
  type MeasuredStars,
  measureStars,
  type StarJob,
  starJobs,
} from './measureStars.js';
export type { FilterPlaceBefore } from './movedHalo.js';
export { frameAsImage, usualPatch } from './noiseDefaults.js';
export {
  type FilterJob,
  type MeasuredSession,
  type MeasurementPlan,
  type MeasureOptions,
  planMeasurement,
} from './planMeasurement.js';
export { furtherQuotes, type QuoteContext, quoteBand } from './quoteBand.js';
export { skyOf } from './skyOf.js';
export { skyReport } from './skyReport.js';
export { type StarReports, starReports } from './starReports.js';
export type { BeamLineReport, SkyLineReport, SkyReport } from './usageReports.js';
