export { adaptiveStop, type BlockSummary, type StopDecision } from './adaptiveStop.js';
export { type BudgetOptions, type BudgetShare, budget, type OutputBudget } from './budget.js';
export { compareLinear, type LinearComparison } from './compareLinear.js';
export { type CompiledInputs, compileInputs } from './compileInputs.js';
export { covarianceFactor } from './covarianceFactor.js';
export { type CoverageIntervals, coverageInterval } from './coverageInterval.js';
export type { Distribution, Model, UncertainInput } from './distribution.js';
export { distributionCovariance } from './distributionCovariance.js';
export { distributionMean } from './distributionMean.js';
export { distributionSize } from './distributionSize.js';
export { drawBlock } from './drawBlock.js';
export { effectiveDegreesOfFreedom } from './effectiveDegreesOfFreedom.js';
export { linearInterval } from './linearInterval.js';
export { numericalTolerance } from './numericalTolerance.js';
export {
  type OutputDistribution,
  type PropagateOptions,
  type PropagateResult,
  propagate,
} from './propagate.js';
export { type LinearResult, propagateLinear } from './propagateLinear.js';
export { type Sampler, sampler } from './sampler.js';
export { type SampleSummary, summariseSample } from './summariseSample.js';
