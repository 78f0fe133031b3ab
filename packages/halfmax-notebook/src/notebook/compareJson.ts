import { changeOf, type Difference, shortText } from './compareTexts.js';
import { isRecord } from './plainRecord.js';
import { isClose, type Tolerance } from './tolerance.js';

/**
 * In what two JSON values differ.
 *
 * Lists of numbers of one length give one difference that counts them and names the largest.
 *
 * @param a - first value
 * @param b - second value
 * @param where - place of the values, for the report
 * @param kind - kind of the differences
 * @param tolerance - for numbers
 * @returns differences by their place inside the values
 */
export function compareJson(
  a: unknown,
  b: unknown,
  where: string,
  kind: Difference['kind'],
  tolerance: Tolerance,
): Difference[] {
  if (a === b) return [];
  if (typeof a === 'number' && typeof b === 'number') {
    if (isClose(a, b, tolerance)) return [];
    return [{ kind, where, a: String(a), b: `${b} (${changeOf(a, b)})` }];
  }
  if (Array.isArray(a) && Array.isArray(b)) return compareLists(a, b, where, kind, tolerance);
  if (isRecord(a) && isRecord(b)) {
    const keys = [...new Set([...Object.keys(a), ...Object.keys(b)])].sort();
    return keys.flatMap((key) => {
      const place = `${where}, ${key}`;
      if (!Object.hasOwn(a, key)) return [{ kind, where: place, a: '', b: show(b[key]) }];
      if (!Object.hasOwn(b, key)) return [{ kind, where: place, a: show(a[key]), b: '' }];
      return compareJson(a[key], b[key], place, kind, tolerance);
    });
  }
  return [{ kind, where, a: show(a), b: show(b) }];
}

function compareLists(
  a: readonly unknown[],
  b: readonly unknown[],
  where: string,
  kind: Difference['kind'],
  tolerance: Tolerance,
): Difference[] {
  if (a.length !== b.length) return [{ kind, where, a: `${a.length} values`, b: `${b.length} values` }];
  const isPlain = (value: unknown): boolean => value === null || typeof value !== 'object';
  if (!a.every(isPlain) || !b.every(isPlain))
    return a.flatMap((item, index) => compareJson(item, b[index], `${where} ${index + 1}`, kind, tolerance));
  let count = 0;
  let worst = -1;
  let largest = -1;
  a.forEach((item, index) => {
    const other = b[index];
    const isNumeric = typeof item === 'number' && typeof other === 'number';
    if (item === other || (isNumeric && isClose(item, other, tolerance))) return;
    count++;
    const size = isNumeric ? Math.abs(item - other) : Infinity;
    if (size > largest) {
      largest = size;
      worst = index;
    }
  });
  if (count === 0) return [];
  const [one, other] = [a[worst], b[worst]];
  const change = typeof one === 'number' && typeof other === 'number' ? ` (${changeOf(one, other)})` : '';
  const place = a.length === 1 ? where : `${where}: ${count} of ${a.length} values, most at ${worst + 1}`;
  return [{ kind, where: place, a: show(one), b: `${show(other)}${change}` }];
}

function show(value: unknown): string {
  return shortText(typeof value === 'string' ? value : (JSON.stringify(value) ?? String(value)));
}
