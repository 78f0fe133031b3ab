import { compareJson } from './compareJson.js';
import { compareTexts, type Difference, shortText } from './compareTexts.js';
import { isJsonMime, PLOTLY_MIME, QUANTITY_MIME } from './mimeKinds.js';
import { isRecord, type PlainRecord } from './plainRecord.js';
import { plainText, tableCells } from './tableCells.js';
import type { Tolerance } from './tolerance.js';
import type { MimeBundle, Output } from './types.js';

/** What of an output is compared: the most telling of its representations. */
type Aspect = 'stream' | 'error' | 'figure' | 'quantity' | 'table' | 'json' | 'text' | 'picture';

/**
 * In what the outputs of a cell differ.
 *
 * Outputs are paired in their order by what they are; a figure is compared by its data and layout (not its pixels), a
 * table cell by cell, a text line by line.
 *
 * @param a - normalised outputs
 * @param b - normalised outputs
 * @param tolerance - for numbers
 * @returns differences; quantities are left to `compareQuantities`
 */
export function compareOutputs(
  a: readonly Output[],
  b: readonly Output[],
  tolerance: Tolerance,
): Difference[] {
  return pairs(a.map(label), b.map(label)).flatMap(([i, j]) => {
    const [one, other] = [a[i!], b[j!]];
    if (one === undefined) return [{ kind: 'output', where: `output ${j! + 1}`, a: '', b: summary(other!) }];
    if (other === undefined) return [{ kind: 'output', where: `output ${i! + 1}`, a: summary(one), b: '' }];
    return compareOutput(one, other, `output ${i! + 1}`, tolerance);
  });
}

function compareOutput(a: Output, b: Output, where: string, tolerance: Tolerance): Difference[] {
  if (a.output_type === 'stream' && b.output_type === 'stream')
    return compareTexts(a.text, b.text, `${where}, ${a.name}`, tolerance);
  if (a.output_type === 'error' && b.output_type === 'error')
    return compareTexts(`${a.ename}: ${a.evalue}`, `${b.ename}: ${b.evalue}`, `${where}, error`, tolerance);
  const [one, other] = [dataOf(a), dataOf(b)];
  switch (aspectOf(a)) {
    case 'quantity':
      return [];
    case 'figure':
      return compareFigures(
        one[PLOTLY_MIME] as PlainRecord,
        other[PLOTLY_MIME] as PlainRecord,
        where,
        tolerance,
      );
    case 'table':
      return compareTables(String(one['text/html']), String(other['text/html']), where, tolerance);
    case 'json': {
      const mime = jsonMime(one)!;
      return compareJson(one[mime], other[mime], `${where}, ${mime}`, 'text', tolerance);
    }
    case 'picture': {
      const mimes = [...new Set([...Object.keys(one), ...Object.keys(other)])].filter((m) =>
        m.startsWith('image/'),
      );
      return mimes
        .filter((mime) => one[mime] !== other[mime])
        .map((mime) => ({
          kind: 'picture',
          where: `${where}, ${mime}`,
          a: size(one[mime]),
          b: size(other[mime]),
        }));
    }
    default:
      return compareTexts(textOf(one), textOf(other), where, tolerance);
  }
}

function compareFigures(a: PlainRecord, b: PlainRecord, where: string, tolerance: Tolerance): Difference[] {
  const tracesA = listOf(a['data']);
  const tracesB = listOf(b['data']);
  const count = Math.max(tracesA.length, tracesB.length);
  const traces = Array.from({ length: count }, (_, index) => {
    const [one, other] = [tracesA[index], tracesB[index]];
    const name = [one, other]
      .map((trace) => (isRecord(trace) ? trace['name'] : undefined))
      .find((n) => n !== undefined);
    const place = `${where}, trace ${index + 1}${name === undefined ? '' : ` (${shortText(String(name))})`}`;
    if (one === undefined) return [{ kind: 'figure' as const, where: place, a: '', b: 'a trace' }];
    if (other === undefined) return [{ kind: 'figure' as const, where: place, a: 'a trace', b: '' }];
    return compareJson(one, other, place, 'figure', tolerance);
  });
  const rest = ['layout', 'frames', 'config'].flatMap((part) =>
    compareJson(a[part] ?? {}, b[part] ?? {}, `${where}, ${part}`, 'figure', tolerance),
  );
  return [...traces.flat(), ...rest];
}

function compareTables(a: string, b: string, where: string, tolerance: Tolerance): Difference[] {
  const rowsA = tableCells(a);
  const rowsB = tableCells(b);
  if (rowsA.length !== rowsB.length)
    return [{ kind: 'table', where, a: `${rowsA.length} rows`, b: `${rowsB.length} rows` }];
  const heads = rowsA[0] ?? [];
  const cells = rowsA.flatMap((row, r) => {
    const other = rowsB[r]!;
    if (row.length !== other.length)
      return [
        {
          kind: 'table' as const,
          where: `${where}, row ${r}`,
          a: `${row.length} cells`,
          b: `${other.length} cells`,
        },
      ];
    return row.flatMap((cell, c) => {
      const place = `${where}, ${r === 0 ? 'head' : `row ${r}`}, ${heads[c] || `column ${c + 1}`}`;
      return compareTexts(cell, other[c]!, place, tolerance).map((found) => ({
        ...found,
        kind: 'table' as const,
      }));
    });
  });
  if (cells.length > 0) return cells;
  // Nothing in the cells: a caption or a text around the table.
  return compareTexts(plainText(a), plainText(b), `${where}, text of the table`, tolerance);
}

function aspectOf(output: Output): Aspect {
  if (output.output_type === 'stream' || output.output_type === 'error') return output.output_type;
  const { data } = output;
  if (QUANTITY_MIME in data) return 'quantity';
  if (isRecord(data[PLOTLY_MIME])) return 'figure';
  if (typeof data['text/html'] === 'string' && tableCells(data['text/html']).length > 0) return 'table';
  if (jsonMime(data) !== undefined) return 'json';
  if (textOf(data) !== '') return 'text';
  return 'picture';
}

function label(output: Output): string {
  return output.output_type === 'stream' ? `stream ${output.name}` : aspectOf(output);
}

function dataOf(output: Output): MimeBundle {
  return 'data' in output ? output.data : {};
}

function jsonMime(data: MimeBundle): string | undefined {
  return Object.keys(data).find(isJsonMime);
}

/** The text that says most: not the one that stands for a picture. */
function textOf(data: MimeBundle): string {
  const hasPicture = Object.keys(data).some((mime) => mime.startsWith('image/'));
  const order = ['text/html', 'text/markdown', 'text/latex', ...(hasPicture ? [] : ['text/plain'])];
  const mime = order.find((name) => typeof data[name] === 'string');
  if (mime !== undefined) return String(data[mime]);
  const other = Object.keys(data).find((name) => name.startsWith('text/') && name !== 'text/plain');
  return other === undefined ? '' : String(data[other]);
}

function summary(output: Output): string {
  if (output.output_type === 'stream') return shortText(`${output.name}: ${output.text}`);
  if (output.output_type === 'error') return shortText(`${output.ename}: ${output.evalue}`);
  const text = output.data['text/plain'];
  return `${aspectOf(output)}${typeof text === 'string' ? `: ${shortText(text)}` : ''}`;
}

function size(value: unknown): string {
  return typeof value === 'string' ? `a picture of ${Math.round((value.length * 3) / 4)} bytes` : '';
}

function listOf(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

/** Pairs two lists of labels in order: a longest common part, the rest alone. */
export function pairs(a: readonly string[], b: readonly string[]): [number | null, number | null][] {
  const best = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0));
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      best[i]![j] = a[i] === b[j] ? best[i + 1]![j + 1]! + 1 : Math.max(best[i + 1]![j]!, best[i]![j + 1]!);
  const found: [number | null, number | null][] = [];
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) found.push([i++, j++]);
    else if (j === b.length || (i < a.length && best[i + 1]![j]! >= best[i]![j + 1]!))
      found.push([i++, null]);
    else found.push([null, j++]);
  }
  return found;
}
