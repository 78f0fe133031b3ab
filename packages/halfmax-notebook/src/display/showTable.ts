import type { MimeBundle } from '../notebook/index.js';
import { columnTexts } from './columnTexts.js';
import { emit } from './emit.js';
import { escapeHtml } from './escapeHtml.js';
import { type ColumnRecord, type FrameLike, tableColumns } from './tableColumns.js';
import { TEXT_CELL } from './textCell.js';

/** How a table is shown. */
export interface TableOptions {
  /** Decimals of all numbers, or by column; left out: up to six significant digits, the same decimals in a column. */
  readonly digits?: number | Readonly<Record<string, number>>;
  readonly caption?: string;
  /** Rows shown before the middle is left out, from 2; left out: 30. */
  readonly maxRows?: number;
}

const MAX_ROWS = 30;

/**
 * Shows a table: as HTML without style or script, and as text.
 *
 * @param table - a data frame of danfojs, or arrays by column name
 * @param options - decimals, caption, rows
 * @returns nothing inside a kernel; the representations by MIME type outside
 * @throws {RangeError} no table, columns of different lengths, a number of decimals that is none
 */
export function showTable(
  table: FrameLike | ColumnRecord,
  options: TableOptions = {},
): MimeBundle | undefined {
  const maxRows = options.maxRows ?? MAX_ROWS;
  if (!Number.isInteger(maxRows) || maxRows < 2)
    throw new RangeError(`showTable requires maxRows to be a whole number from 2, got ${maxRows}`);
  const columns = tableColumns(table);
  const rows = columns[0]?.cells.length ?? 0;
  const head = rows <= maxRows ? rows : Math.ceil(maxRows / 2);
  const tail = rows <= maxRows ? 0 : maxRows - head;
  const shown = columns.map((column) => {
    const { texts, isNumeric } = columnTexts(column, decimalsFor(column.name, options.digits));
    const gap = rows > maxRows ? ['…'] : [];
    return {
      name: column.name,
      isNumeric,
      texts: [...texts.slice(0, head), ...gap, ...texts.slice(rows - tail)].slice(
        0,
        head + gap.length + tail,
      ),
    };
  });
  const note = rows > maxRows ? `${maxRows} of ${rows} rows` : '';
  const caption = [options.caption ?? '', note].filter((part) => part !== '').join(' – ');
  return emit({ 'text/html': htmlTable(shown, caption), 'text/plain': textTable(shown, caption) });
}

interface ShownColumn {
  readonly name: string;
  readonly isNumeric: boolean;
  readonly texts: readonly string[];
}

function decimalsFor(name: string, digits: TableOptions['digits']): number | undefined {
  const own = typeof digits === 'object' ? (Object.hasOwn(digits, name) ? digits[name] : undefined) : digits;
  if (own !== undefined && !(Number.isInteger(own) && own >= 0 && own <= 20))
    throw new RangeError(`showTable requires digits to be a whole number from 0 to 20, got ${own}`);
  return own;
}

function htmlTable(columns: readonly ShownColumn[], caption: string): string {
  const heads = columns.map(({ name, isNumeric }) => cell('th scope="col"', name, isNumeric));
  const rows = (columns[0]?.texts ?? []).map(
    (_, row) =>
      `<tr>${columns.map(({ texts, isNumeric }) => cell('td', texts[row]!, isNumeric)).join('')}</tr>`,
  );
  return [
    '<table>',
    ...(caption === '' ? [] : [`<caption>${escapeHtml(caption)}</caption>`]),
    `<thead><tr>${heads.join('')}</tr></thead>`,
    '<tbody>',
    ...rows,
    '</tbody>',
    '</table>',
  ].join('\n');
}

function cell(tag: string, text: string, isNumeric: boolean): string {
  const name = tag.split(' ')[0];
  return `<${tag}${isNumeric ? ' class="number"' : TEXT_CELL}>${escapeHtml(text)}</${name}>`;
}

function textTable(columns: readonly ShownColumn[], caption: string): string {
  const widths = columns.map(({ name, texts }) =>
    Math.max(...[name, ...texts].map((text) => [...text].length)),
  );
  const line = (row: (column: ShownColumn) => string): string =>
    columns
      .map((column, index) => {
        const text = row(column).replace(/\s+/g, ' ');
        const blanks = ' '.repeat(Math.max(0, widths[index]! - [...text].length));
        return column.isNumeric ? blanks + text : text + blanks;
      })
      .join('  ')
      .trimEnd();
  return [
    ...(caption === '' ? [] : [caption, '']),
    line(({ name }) => name),
    widths.map((width) => '─'.repeat(width)).join('  '),
    ...(columns[0]?.texts ?? []).map((_, row) => line(({ texts }) => texts[row]!)),
  ].join('\n');
}
