import { isClose, type Tolerance } from './tolerance.js';

/** One thing in which two outputs differ. */
export interface Difference {
  readonly kind:
    | 'source'
    | 'number'
    | 'text'
    | 'table'
    | 'figure'
    | 'picture'
    | 'quantity'
    | 'error'
    | 'output';
  /** Inside the cell: `output 2, line 4`. */
  readonly where: string;
  /** As short texts; empty where that side has nothing there. */
  readonly a: string;
  readonly b: string;
}

/** A number in a text, not inside a word; a minus sign may be the typographic one. */
const NUMBER = /(?<![\w.])[-+\u2212]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+\u2212]?\d+)?/g;
const LONGEST = 100;

/**
 * In what two texts differ, line by line: numbers where only numbers differ, the text else.
 *
 * @param a - first text
 * @param b - second text
 * @param where - place of the texts, for the report
 * @param tolerance - for numbers; spacing counts only where it is exact
 * @returns differences, each with its line; empty where there is none
 */
export function compareTexts(a: string, b: string, where: string, tolerance: Tolerance): Difference[] {
  if (a === b) return [];
  const linesA = a.split('\n');
  const linesB = b.split('\n');
  if (linesA.length !== linesB.length) return [unequalLengths(linesA, linesB, where)];
  return linesA.flatMap((line, index) => {
    const place = linesA.length === 1 ? where : `${where}, line ${index + 1}`;
    return compareLines(line, linesB[index]!, place, tolerance);
  });
}

/** A number as read from a text. */
export function numberIn(text: string): number {
  return Number(text.replaceAll('\u2212', '-'));
}

/**
 * A change of a number in words.
 *
 * @param a - before
 * @param b - after
 * @returns such as `+0.008`, with four digits
 */
export function changeOf(a: number, b: number): string {
  const change = Number((b - a).toPrecision(4));
  return change > 0 ? `+${change}` : String(change).replace('-', '\u2212');
}

/**
 * A text short enough for a line.
 *
 * @param text - any text
 * @returns the text without line breaks, cut where it is long
 */
export function shortText(text: string): string {
  const line = text.replace(/\s*[\r\n]+\s*/g, ' ⏎ ');
  return line.length > LONGEST ? `${line.slice(0, LONGEST - 1)}…` : line;
}

function compareLines(a: string, b: string, where: string, tolerance: Tolerance): Difference[] {
  if (a === b) return [];
  const numbersA = a.match(NUMBER) ?? [];
  const numbersB = b.match(NUMBER) ?? [];
  if (skeleton(a) !== skeleton(b)) return [{ kind: 'text', where, a: shortText(a), b: shortText(b) }];
  const differing = numbersA.flatMap((text, index) => {
    const other = numbersB[index]!;
    if (isClose(numberIn(text), numberIn(other), tolerance)) return [];
    const change = changeOf(numberIn(text), numberIn(other));
    return [{ kind: 'number' as const, where, a: text, b: `${other} (${change})` }];
  });
  const isExact = tolerance.relative === 0 && tolerance.absolute === 0;
  if (differing.length > 0 || !isExact) return differing;
  return [{ kind: 'text', where: `${where}, way of writing`, a: shortText(a), b: shortText(b) }];
}

/** A line without its numbers and without the spacing and rules that follow their widths. */
function skeleton(line: string): string {
  return line
    .replace(NUMBER, '#')
    .replace(/[─—=_-]{2,}/g, '─')
    .replace(/\s+/g, ' ')
    .trim();
}

function unequalLengths(linesA: readonly string[], linesB: readonly string[], where: string): Difference {
  const shorter = Math.min(linesA.length, linesB.length);
  let first = 0;
  while (first < shorter && linesA[first] === linesB[first]) first++;
  const show = (lines: readonly string[]): string =>
    `${lines.length} lines; line ${first + 1}: ${first < lines.length ? shortText(lines[first]!) : 'none'}`;
  return { kind: 'text', where, a: show(linesA), b: show(linesB) };
}
