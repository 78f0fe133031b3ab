import type { TableColumn } from './tableColumns.js';

/** Significant digits of a column whose decimals are not said. */
const SIGNIFICANT = 6;
const MINUS = '\u2212';

/**
 * The cells of a column as texts: numbers with the same decimals, so that they stand below each other.
 *
 * @param column - name and cells
 * @param decimals - 0 to 20; left out: up to six significant digits of the largest number, no trailing zeros in all rows
 * @returns one text a cell, and whether all that is there are numbers; an en dash where there is no number
 */
export function columnTexts(column: TableColumn, decimals?: number): { texts: string[]; isNumeric: boolean } {
  const { cells } = column;
  const numbers = cells.filter((cell): cell is number => typeof cell === 'number' && Number.isFinite(cell));
  const isNumeric = numbers.length > 0 && cells.every((cell) => typeof cell === 'number' || cell == null);
  const places = decimals ?? decimalsOf(numbers);
  const texts = cells.map((cell) => {
    if (cell === null || cell === undefined) return '–';
    if (typeof cell === 'number') return numberText(cell, places);
    if (typeof cell === 'object' && !(cell instanceof Date)) return JSON.stringify(cell) ?? '–';
    return cell instanceof Date ? cell.toISOString() : String(cell);
  });
  return { texts, isNumeric };
}

function numberText(value: number, places: number | null): string {
  if (Number.isNaN(value)) return '–';
  if (!Number.isFinite(value)) return value > 0 ? '∞' : `${MINUS}∞`;
  const text = places === null ? value.toExponential(SIGNIFICANT - 1) : value.toFixed(places);
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text.replace('-', MINUS);
}

/** Decimals that show the largest number to six digits; null where the numbers need powers of ten. */
function decimalsOf(numbers: readonly number[]): number | null {
  const largest = Math.max(0, ...numbers.map(Math.abs));
  if (numbers.every(Number.isInteger)) return largest < 1e15 ? 0 : null;
  if (largest >= 1e9 || largest < 1e-4) return null;
  const most = Math.min(12, Math.max(0, SIGNIFICANT - 1 - Math.floor(Math.log10(largest))));
  for (let places = 0; places < most; places++)
    if (numbers.every((value) => Number(value.toFixed(places)) === Number(value.toFixed(most))))
      return places;
  return most;
}
