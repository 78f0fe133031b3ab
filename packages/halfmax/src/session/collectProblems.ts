import { BadInputError, type InputProblem } from '../errors.js';

/**
 * Runs a step and keeps what it refuses, so that the next step can run too.
 *
 * @param problems - gains what the step refuses
 * @param step - may throw BadInputError; any other error goes through
 * @returns the result, or null where it was refused
 */
export function collectProblems<T>(problems: InputProblem[], step: () => T): T | null {
  try {
    return step();
  } catch (error) {
    if (!(error instanceof BadInputError)) throw error;
    problems.push(...error.problems);
    return null;
  }
}
