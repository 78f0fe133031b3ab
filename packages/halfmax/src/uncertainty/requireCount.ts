/**
 * Checks that an argument is a count.
 *
 * @param caller - function that asks, for the message
 * @param name - name of the argument
 * @param got - its value
 * @throws {RangeError} not a whole number greater than 0
 */
export function requireCount(caller: string, name: string, got: number): void {
  if (!(Number.isInteger(got) && got > 0)) {
    throw new RangeError(`${caller} requires ${name} a whole number > 0, got ${got}`);
  }
}
