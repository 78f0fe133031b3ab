import { parseCell } from './parseCell.js';
import { splitCells } from './splitCells.js';
import type { TableForm } from './tableForm.js';

/** A line of a table. */
export interface Row {
  readonly line: number;
  readonly text: string;
  /** The numbers; null where a cell is none. */
  readonly values: readonly number[] | null;
}

/** A row with its cells, for those that are not plain numbers. */
export interface SplitRow extends Row {
  /** Without the empty ones at the end. */
  readonly cells: readonly string[];
  /** Number of cells with the empty ones at the end. */
  readonly written: number;
}

/** Cells that stand for a missing or impossible number. */
export const notNumbers: RegExp =
  /^(?:[+-]?(?:nan|inf|infinity|1\.#(?:ind|inf|qnan).*)|n\/?a|#n\/?a|null|none|-+|\*+|#(?:value|div\/0|num|ref)!?)$/i;

/** Splits a line; cells left empty by delimiters at its end do not count. */
export function splitRow(line: number, text: string, form: TableForm): SplitRow {
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
