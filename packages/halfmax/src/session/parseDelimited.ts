import { refuse } from '../errors.js';
import { checkAbove, checkBelow, refuseRow } from './checkTableEdges.js';
import { parseCell } from './parseCell.js';
import { parseNumberRow } from './parseNumberRow.js';
import { splitCells } from './splitCells.js';
import { isNumberLine, type TableForm, tableForm } from './tableForm.js';
import { notNumbers, type Row, splitRow } from './tableRow.js';

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

/** A remark behind the numbers of a line; error values of spreadsheets also begin with a hash. */
const remark = /\s#(?!n\/a|value!|div\/0|num!|ref!|name\?|null!).*$/i;

function isComment(line: string, form: TableForm): boolean {
  const first = line[0];
  if (first === '#' || first === '%' || first === '!') return !notNumbers.test(line);
  if (first === '/') return line[1] === '/';
  return first === ';' && !(form.delimiter === ';' && isNumberLine(line.slice(1)));
}

function rowOf(line: number, text: string, form: TableForm): Row {
  const values = parseNumberRow(text, form);
  return values === null ? splitRow(line, text, form) : { line, text, values };
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
      const row = splitRow(spoilt.line, spoilt.text, form);
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
