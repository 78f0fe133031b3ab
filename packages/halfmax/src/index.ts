export { BadInputError, describeProblem, type InputProblem } from './errors.js';
export type { MeasuredSession, Measurement, MeasureOptions } from './measure/index.js';
export { measureSession } from './measure/index.js';
