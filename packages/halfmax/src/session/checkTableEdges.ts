import { refuse } from '../errors.js';
import { parseCell } from './parseCell.js';
import { quoteValue } from './quoteValue.js';
import type { TableForm } from './tableForm.js';
import { notNumbers, type Row, type SplitRow, splitRow } from './tableRow.js';

/**
 * Says what is wrong with a row of a table.
 *
 * @throws {BadInputError} always
 */
export function refuseRow(row: SplitRow, width: number, form: TableForm, fileName: string): never {
  const column = row.cells.findIndex((cell) => parseCell(cell, form.decimal) === null);
  const fix = 'correct or export the frame again';
  if (column < 0) {
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
export function checkAbove(
  rows: readonly Row[],
  from: number,
  to: number,
  width: number,
  form: TableForm,
  fileName: string,
): void {
  const above = rows[from - 1];
  if (above === undefined) return;
  const row = splitRow(above.line, above.text, form);
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
export function checkBelow(
  rows: readonly Row[],
  to: number,
  width: number,
  form: TableForm,
  fileName: string,
): void {
  const below = rows[to];
  if (below === undefined) return;
  const row = splitRow(below.line, below.text, form);
  if (isSpoilt(row, width, form)) refuseRow(row, width, form, fileName);
  const goesOn = rows.slice(to + 1).some((r) => r.values?.length === width);
  if (goesOn) refuseRow(row, width, form, fileName);
}
