import { BadInputError } from 'halfmax';

/**
 * Throws a {@link BadInputError} with a single problem.
 *
 * @throws {BadInputError} always
 */
export function refuse(where: string, place: string, what: string, fix: string): never {
  throw new BadInputError([{ where, place, what, fix }]);
}
