import { refuse } from '../errors.js';
import { type Delimiter, splitCells } from './splitCells.js';

/** How the cells of a table are written. */
export interface TableForm {
  readonly delimiter: Delimiter;
  readonly decimal: '.' | ',';
}

/** A line made of numbers and separators only, with at least one digit. */
const numberLine = /^[\s\d+\-−.,;eEdD"']*\d[\s\d+\-−.,;eEdD"']*$/;

/** Whether a line holds nothing but numbers and separators. */
export function isNumberLine(line: string): boolean {
  return numberLine.test(line);
}

function count(line: string, character: string): number {
  let n = 0;
  for (let at = line.indexOf(character); at >= 0; at = line.indexOf(character, at + 1)) n++;
  return n;
}

/** Whether nearly all steps are one and the same, not 0: whole numbers of an axis, of which a line may be lost. */
function stepsEvenly(values: readonly number[]): boolean {
  const step = values[1]! - values[0]!;
  const even = values.filter((v, i) => i > 0 && v - values[i - 1]! === step).length;
  return values.length > 2 && step !== 0 && even >= 0.9 * (values.length - 1);
}

/** Lines with one comma each and no other separator: two columns, or one with a decimal comma. */
function oneCommaForm(lines: readonly string[], header: readonly string[], fileName: string): TableForm {
  const columns: TableForm = { delimiter: ',', decimal: '.' };
  const single: TableForm = { delimiter: 'none', decimal: ',' };
  if (lines.some((line) => !line.includes(','))) return single;
  const pairs = lines.map((line) => line.trim().split(',') as [string, string]);
  const withPoint = pairs.filter(([a, b]) => a.includes('.') || b.includes('.')).length;
  if (withPoint > 0) {
    const left = pairs.map(([a]) => Number(a.replace(/["']/g, '')));
    const rising =
      left.every((v, i) => i === 0 || v > left[i - 1]!) || left.every((v, i) => i === 0 || v < left[i - 1]!);
    if (rising || pairs.some(([, b]) => b.includes('.')) || pairs.length < 3) return columns;
    return refuse(
      fileName,
      '',
      `can be read in two ways: "${lines[0]!.trim()}" is two numbers, or one with a point between the thousands and a decimal comma`,
      'write numbers without marks between the thousands, and separate columns by semicolons',
    );
  }
  const named =
    header.length > 0 && /^[^,]*[A-Za-z][^,]*,[^,]*[A-Za-z][^,]*$/.test(header[header.length - 1]!);
  if (named || pairs.some(([a, b]) => /[eEdD"']/.test(a) || /^[+-]/.test(b))) return columns;
  if (stepsEvenly(pairs.map(([a]) => Number(a)))) return columns;
  const tails = pairs.map(([, b]) => b);
  const leadingZero = tails.some((b) => /^0\d/.test(b));
  const oneDigit =
    tails.length >= 20 && tails.every((b) => b.length === 1) && pairs.some(([a]) => a.length > 2);
  if (leadingZero || oneDigit) return single;
  return refuse(
    fileName,
    '',
    `can be read in two ways: "${lines[0]!.trim()}" is two numbers, or one with a decimal comma`,
    'separate columns by semicolons, or write decimal points',
  );
}

/**
 * Finds out how the numbers of a text are separated and written.
 *
 * @param lines - the lines that hold nothing but numbers and separators
 * @param header - the other lines above them
 * @param fileName - named in messages
 * @returns delimiter and decimal sign
 * @throws {BadInputError} two readings are possible
 * @example
 * tableForm(['400,5;12', '401,0;13'], [], 'a.csv'); // => { delimiter: ';', decimal: ',' }
 */
export function tableForm(lines: readonly string[], header: readonly string[], fileName: string): TableForm {
  // A few hundred lines, evenly spread, tell what most lines look like.
  const every = Math.ceil(lines.length / 400);
  const sample = lines.filter((_, i) => i % every === 0);
  const most = (test: (line: string) => boolean): boolean => 2 * sample.filter(test).length > sample.length;
  const withComma = lines.filter((line) => line.includes(',')).length;
  const withPoint = lines.filter((line) => line.includes('.')).length;
  const decimal = withComma > withPoint ? ',' : '.';
  if (most((line) => line.trim().includes('\t'))) return { delimiter: 'tab', decimal };
  if (most((line) => line.includes(';'))) {
    const trailingOnly = !lines.some((line) => /;\s*[^;\s]/.test(line));
    if (!trailingOnly || !most((line) => line.includes(','))) return { delimiter: ';', decimal };
  }
  if (most((line) => line.includes('"'))) {
    const outside = most((line) => line.replace(/"[^"]*"/g, '').includes(','));
    if (outside)
      return {
        delimiter: ',',
        decimal: lines.some((line) => splitCells(line, ',').some((cell) => cell.includes(','))) ? ',' : '.',
      };
  }
  const blankBetween = (line: string): boolean => /\S\s+\S/.test(line.replace(/,\s+/g, ','));
  if (most(blankBetween)) return { delimiter: 'blank', decimal };
  if (most((line) => /,\s+\S/.test(line.trim()) || count(line.trim().replace(/,$/, ''), ',') > 1))
    return { delimiter: ',', decimal: '.' };
  if (most((line) => line.trim().endsWith(',') && count(line, ',') === 1))
    return { delimiter: ',', decimal: '.' };
  if (withComma > 0) return oneCommaForm(lines, header, fileName);
  return { delimiter: 'none', decimal: '.' };
}
