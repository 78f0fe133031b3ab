/** One thing that is wrong with what the user gave. */
export interface InputProblem {
  /** File, relative to the session folder, or the option of the command. */
  readonly where: string;
  /** Field, line or column inside it; empty where the whole file is meant. */
  readonly place: string;
  /** What is wrong, with what was found. */
  readonly what: string;
  /** What to do about it. */
  readonly fix: string;
}

/**
 * The one error for bad input: everything else that is thrown is a fault of the package.
 * It carries all problems found, not only the first.
 */
export class BadInputError extends Error {
  readonly problems: readonly InputProblem[];

  constructor(problems: readonly InputProblem[]) {
    super(problems.map(describeProblem).join('\n'));
    this.name = 'BadInputError';
    this.problems = problems;
  }
}

/**
 * A problem as one line of text: file, place, reason, what to do.
 *
 * @param problem - the problem
 * @returns one line without a line break
 * @example
 * describeProblem({ where: 'a.csv', place: 'line 3', what: '"x" is not a number', fix: 'correct it' });
 * // => 'a.csv: line 3: "x" is not a number; correct it'
 */
export function describeProblem(problem: InputProblem): string {
  const head = problem.place === '' ? problem.where : `${problem.where}: ${problem.place}`;
  return `${head}: ${problem.what}; ${problem.fix}`.replace(/\s*[\r\n]+\s*/g, ' ');
}

/**
 * Throws a {@link BadInputError} with a single problem.
 *
 * @throws {BadInputError} always
 */
export function refuse(where: string, place: string, what: string, fix: string): never {
  throw new BadInputError([{ where, place, what, fix }]);
}
