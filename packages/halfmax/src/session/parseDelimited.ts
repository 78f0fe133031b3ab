import { refuse } from '../errors.js';
import { parseCell } from './parseCell.js';
import { parseNumberRow } from './parseNumberRow.js';
import { quoteValue } from './quoteValue.js';
import { splitCells } from './splitCells.js';
import { isNumberLine, type TableForm, tableForm } from './tableForm.js';

/** A table of numbers found in a text. */
export interface DelimitedTable {
  /** One array per column, all of the same length. */
  readonly columns: readonly Float64Array[];
  /** Name of each column from the header, units and all; empty where there is none. */
  readonly names: readonly string[];
  /** Line of the file that each row stands on, from 1. */
  readonly lineNumbers: readonly number[];
  /** The lines above the table. */
  readonly header: readonly string[];
  readonly form: TableForm;
}

interface Row {
  readonly line: number;
  readonly text: string;
  /** The numbers; null where a cell is none. */
  readonly values: readonly number[] | null;
}

/** A row with its cells, for those that are not plain numbers. */
interface SplitRow extends Row {
  /** Without the empty ones at the end. */
  readonly cells: readonly string[];
  /** Number of cells with the empty ones at the end. */
  readonly written: number;
}

const notNumbers =
  /^(?:[+-]?(?:nan|inf|infinity|1\.#(?:ind|inf|qnan).*)|n\/?a|#n\/?a|null|none|-+|\*+|#(?:value|div\/0|num|ref)!?)$/i;

/** A remark behind the numbers of a line; error values of spreadsheets also begin with a hash. */
const remark = /\s#(?!n\/a|value!|div\/0|num!|ref!|name\?|null!).*$/i;

function isComment(line: string, form: TableForm): boolean {
  const first = line[0];
  if (first === '#' || first === '%' || first === '!') return !notNumbers.test(line);
  if (first === '/') return line[1] === '/';
  return first === ';' && !(form.delimiter === ';' && isNumberLine(line.slice(1)));
}

/** Splits a line; cells left empty by delimiters at its end do not count. */
function split(line: number, text: string, form: TableForm): SplitRow {
  const cells = splitCells(text, form.delimiter);
  const written = cells.length;
  while (cells.length > 1 && cells[cells.length - 1] === '') cells.pop();
  const values: number[] = [];
  for (const cell of cells) {
    const value = parseCell(cell, form.decimal);
    if (value === null) return { line, text, cells, written, values: null };
    values.push(value);
  }
  return { line, text, cells, written, values };
}

function rowOf(line: number, text: string, form: TableForm): Row {
  const values = parseNumberRow(text, form);
  return values === null ? split(line, text, form) : { line, text, values };
}

/** The longest run of rows that are all numbers and equally many: [first, beyond]. */
function longestRun(rows: readonly Row[]): [number, number] {
  let best: [number, number] = [0, 0];
  let start = -1;
  for (let i = 0; i <= rows.length; i++) {
    const row = rows[i];
    const isNumeric = row !== undefined && row.values !== null;
    if (start >= 0 && isNumeric && row.values.length === rows[start]!.values!.length) continue;
    if (start >= 0 && i - start > best[1] - best[0]) best = [start, i];
    start = isNumeric ? i : -1;
  }
  return best;
}

function refuseRow(row: SplitRow, width: number, form: TableForm, fileName: string): never {
  const column = row.cells.findIndex((cell) => parseCell(cell, form.decimal) === null);
  const fix = 'correct or export the frame again';
  if (column < 0 || (row.cells.length !== width && row.cells.every((cell) => cell !== ''))) {
    const n = row.cells.length;
    if (n < width && row.written > n) refuse(fileName, `line ${row.line}, column ${n + 1}`, 'is empty', fix);
    refuse(
      fileName,
      `line ${row.line}`,
      `has ${n} ${n === 1 ? 'value' : 'values'}, the other lines have ${width}`,
      fix,
    );
  }
  const place = width > 1 ? `line ${row.line}, column ${column + 1}` : `line ${row.line}`;
  const cell = row.cells[column]!;
  if (cell === '') refuse(fileName, place, 'is empty', fix);
  if (parseCell(cell, form.decimal === '.' ? ',' : '.') !== null && /[.,]/.test(cell)) {
    const what = `${quoteValue(cell)} does not have the decimal sign "${form.decimal}" of the other numbers`;
    refuse(fileName, place, what, 'use one decimal sign and no marks between the thousands');
  }
  const mixed = cell.includes('.') && cell.includes(',');
  if (mixed || /^\d{1,3}([.,' ]\d{3}){2,}$/.test(cell)) {
    refuse(
      fileName,
      place,
      `${quoteValue(cell)} has marks between the thousands or both decimal signs`,
      'write plain numbers',
    );
  }
  refuse(fileName, place, `${quoteValue(cell)} is not a number`, fix);
}

/** Whether a row that is not all numbers is a spoilt row of the table rather than a line of words. */
function isSpoilt(row: SplitRow, width: number, form: TableForm): boolean {
  if (row.cells.some((cell) => notNumbers.test(cell))) return true;
  if (row.values !== null) return row.cells.length !== width;
  if (width === 1) return row.cells[0] === '';
  if (row.cells.length > width) return false;
  return row.cells.some((cell) => parseCell(cell, form.decimal) !== null);
}

/** Refuses what stands before the table and belongs to it. */
function checkAbove(
  rows: readonly Row[],
  from: number,
  to: number,
  width: number,
  form: TableForm,
  fileName: string,
): void {
  const above = rows[from - 1];
  if (above === undefined) return;
  const row = split(above.line, above.text, form);
  if (row.values !== null) {
    // Lines of numbers of another width are a header, unless lines of the table's width stand above them.
    if (rows.slice(0, from - 1).some((r) => r.values?.length === width))
      refuseRow(row, width, form, fileName);
    return;
  }
  let run = 0;
  while (rows[from - 2 - run]?.values?.length === width) run++;
  const startsFile = run > 0 && rows[from - 2 - run] === undefined;
  const holdsNumber = row.cells.some((cell) => parseCell(cell, form.decimal) !== null);
  const fits =
    width === 1 ? !/[\s<>=:*]/.test(row.cells[0]!) : row.cells.length === width && (holdsNumber || run > 2);
  const first = parseCell(row.cells[0]!, form.decimal);
  const start = rows[from]!.values![0]!;
  const step = (rows[from + 1]?.values?.[0] ?? start) - start;
  // Its first cell continues the axis upwards: the first row of the table, not a header.
  const leads =
    width > 1 &&
    row.cells.length === width &&
    first !== null &&
    Math.abs(start - step - first) < 0.51 * Math.abs(step);
  if (leads) refuseRow(row, width, form, fileName);
  // A run that long above the line is the other part of the table, whatever the line says.
  const interrupts = (fits && (run > 2 || startsFile)) || run > 0.1 * (to - from);
  if (interrupts || row.cells.some((cell) => notNumbers.test(cell))) refuseRow(row, width, form, fileName);
}

/** Refuses what stands below the table and belongs to it. */
function checkBelow(
  rows: readonly Row[],
  to: number,
  width: number,
  form: TableForm,
  fileName: string,
): void {
  const below = rows[to];
  if (below === undefined) return;
  const row = split(below.line, below.text, form);
  if (isSpoilt(row, width, form)) refuseRow(row, width, form, fileName);
  const goesOn = rows.slice(to + 1).some((r) => r.values?.length === width);
  if (goesOn) refuseRow(row, width, form, fileName);
}

function columnNames(header: readonly string[], width: number, form: TableForm): string[] {
  const names = new Array<string>(width).fill('');
  const written = header.map((line) => line.trim()).filter((line) => line !== '');
  for (const line of written.slice(-3).reverse()) {
    const bare = line.replace(/^(?:#|%|!|;|\/\/)\s*/, '');
    let cells = splitCells(bare, form.delimiter);
    while (cells.length > width && cells[cells.length - 1] === '') cells.pop();
    if (cells.length !== width) cells = bare.split(/\s*[\t;,]\s*/);
    if (cells.length !== width) cells = bare.split(/\s{2,}/);
    if (cells.length !== width || cells.some((cell) => parseCell(cell, form.decimal) !== null)) break;
    cells.forEach((cell, i) => {
      names[i] = `${cell} ${names[i]}`.trim();
    });
  }
  return names;
}

/**
 * Reads the table of numbers in a delimited text: comma, semicolon, tab or blanks; decimal point or comma; any header
 * and footer of words, comments, quotes, delimiters at line ends.
 *
 * The table is the longest run of lines with equally many numbers. What interrupts it is refused, never skipped.
 *
 * @param text - the whole file, without byte-order mark
 * @param fileName - named in messages
 * @returns columns in file order
 * @throws {BadInputError} no numbers, a cell inside the table that is no number, lines of different length, or a text
 * that can be read in two ways
 * Cost: O(length).
 * @example
 * parseDelimited('nm;counts\n400,5;12\n401,0;13\n', 'a.csv').names; // => ['nm', 'counts']
 */
export function parseDelimited(text: string, fileName: string): DelimitedTable {
  const lines = text
    .replaceAll('\u001a', '')
    .replaceAll('\ufeff', '')
    .split(/\r\n|\n|\r/);
  if (text.includes('#'))
    lines.forEach((line, i) => {
      lines[i] = line.replace(remark, '');
    });
  const numeric = lines.filter(isNumberLine);
  if (numeric.length === 0)
    refuse(fileName, '', 'holds no line of numbers', 'export the frame as a table of counts');
  const firstNumeric = lines.findIndex(isNumberLine);
  const above = lines.slice(0, firstNumeric).filter((line) => line.trim() !== '');
  const form = tableForm(numeric, above, fileName);

  const rows: Row[] = [];
  for (let i = 0; i < lines.length; i++) {
    const trimmed = lines[i]!.trim();
    if (trimmed === '' || isComment(trimmed, form)) continue;
    rows.push(rowOf(i + 1, form.delimiter === 'tab' ? lines[i]! : trimmed, form));
  }
  const [from, to] = rows.length === 0 ? [0, 0] : longestRun(rows);
  if (to === from) {
    const spoilt = rows.find((row) => isNumberLine(lines[row.line - 1]!));
    if (spoilt !== undefined) {
      const row = split(spoilt.line, spoilt.text, form);
      refuseRow(row, row.cells.length, form, fileName);
    }
    refuse(fileName, '', 'holds no line of numbers', 'export the frame as a table of counts');
  }
  const width = rows[from]!.values!.length;
  checkAbove(rows, from, to, width, form, fileName);
  checkBelow(rows, to, width, form, fileName);

  const columns = Array.from({ length: width }, () => new Float64Array(to - from));
  const lineNumbers: number[] = [];
  for (let i = from; i < to; i++) {
    const { values, line } = rows[i]!;
    for (let k = 0; k < width; k++) columns[k]![i - from] = values![k]!;
    lineNumbers.push(line);
  }
  const header = lines.slice(0, lineNumbers[0]! - 1);
  return { columns, names: columnNames(header, width, form), lineNumbers, header, form };
}
