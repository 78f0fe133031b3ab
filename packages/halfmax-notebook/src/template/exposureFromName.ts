const UNIT_MS: Readonly<Record<string, number>> = { us: 0.001, ms: 1, msec: 1, s: 1000, sec: 1000 };
const IN_NAME = /(?<![a-z0-9.,])(\d+(?:[.,]\d+)?)(?: ?|_?)(us|msec|ms|sec|s)(?![a-z0-9])/i;

/**
 * The exposure in the name of a file.
 *
 * @param name - without its ending
 * @returns milliseconds, and the name with the exposure cut out; null where none is named
 * @example
 * exposureFromName('dark-0.3s-01')?.exposureMs; // => 300
 */
export function exposureFromName(name: string): { exposureMs: number; rest: string } | null {
  const found = IN_NAME.exec(name);
  if (found === null) return null;
  const [text, digits, unit] = found as unknown as [string, string, string];
  const exposureMs = Number(
    (Number(digits.replace(',', '.')) * UNIT_MS[unit.toLowerCase()]!).toPrecision(12),
  );
  if (!(exposureMs > 0)) return null;
  return { exposureMs, rest: `${name.slice(0, found.index)} ${name.slice(found.index + text.length)}` };
}
