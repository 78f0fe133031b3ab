const withPoint = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eEdD][+-]?\d{1,4})?$/;
const withComma = /^[+-]?(?:\d+,?\d*|,\d+)(?:[eEdD][+-]?\d{1,4})?$/;

/**
 * The number in a cell of a table. The exponent may be marked by E or D, as Fortran programs write it.
 *
 * @param cell - text without blanks around it
 * @param decimal - decimal sign of the file
 * @returns a finite number, or null where the cell is none
 * @example
 * parseCell('1,5D3', ','); // => 1500
 */
export function parseCell(cell: string, decimal: '.' | ','): number | null {
  const text = cell.charCodeAt(0) === 0x2212 ? `-${cell.slice(1)}` : cell;
  if (!(decimal === '.' ? withPoint : withComma).test(text)) return null;
  const value = Number(
    decimal === ',' || /[dD]/.test(text) ? text.replace(',', '.').replace(/[dD]/, 'e') : text,
  );
  return Number.isFinite(value) ? value : null;
}
