// What the checks made of `// =>` comments call. Faults go to standard output as JSON lines.
import { format, inspect, isDeepStrictEqual } from 'node:util';

/** A typed array is written as Node prints it: `Float64Array [ 1, 2 ]`. */
const typedArray = /\b((?:Big)?(?:Uint|Int|Float)\d+(?:Clamped)?Array)(?:\(\d+\))? ?(\[[^\]]*\])/g;

/** @param {string} text */
const literalValue = (text) => new Function(`return (${text.replace(typedArray, '$1.from($2)')});`)();

/**
 * @param {string} where
 * @param {readonly number[]} lines - lines that must be checked, each at least once
 */
export function checksFor(where, lines) {
  const seen = new Set();
  const fault = (line, what) =>
    process.stdout.write(`${JSON.stringify(`${where}, line ${line}: ${what}`)}\n`);
  return {
    check(line, value, expected) {
      seen.add(line);
      let wanted;
      try {
        wanted = literalValue(expected);
      } catch (error) {
        return fault(line, `${expected} is no value: ${error.message}`);
      }
      if (!isDeepStrictEqual(value, wanted))
        fault(line, `gives ${inspect(value, { depth: 6 })}, not ${expected}`);
    },
    checkPrinted(line, args, expected) {
      seen.add(line);
      const printed = format(...args);
      if (printed !== expected) fault(line, `prints ${printed}, not ${expected}`);
    },
    finish() {
      for (const line of lines) if (!seen.has(line)) fault(line, 'was never reached');
    },
    fail(error) {
      fault(0, `throws ${error?.stack ?? error}`);
    },
  };
}
