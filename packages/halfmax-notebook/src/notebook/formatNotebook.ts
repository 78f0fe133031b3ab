import { isTextMime } from './mimeKinds.js';
import { isRecord, type PlainRecord } from './plainRecord.js';
import type { Cell, Notebook, Output } from './types.js';

/** Where a line ends, as Python's `splitlines` sees it: the format's own tools cut texts there. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the control characters that end a line
const LINE = /[^\n\r\v\f\x1c-\x1e\x85\u2028\u2029]*(?:\r\n|[\n\r\v\f\x1c-\x1e\x85\u2028\u2029]|$)/g;

/**
 * A notebook as the text of an .ipynb file: the same notebook always gives the same bytes.
 *
 * Keys sorted, one blank of indent, multi-line texts as lists of lines, other than ASCII written as it is, a line break
 * at the end: the style of the format's own tools. Only a list of numbers stands on one line, not on one for each: that
 * makes notebooks with figures much smaller, and a curve that changed is one line of a difference.
 *
 * @param notebook - texts joined, as `readNotebook` gives them
 * @returns the file's content, to be written as UTF-8
 * @throws {RangeError} a number that JSON has no way to write
 */
export function formatNotebook(notebook: Notebook): string {
  return `${jsonText({ ...notebook, cells: notebook.cells.map(splitCell) }, '\n')}\n`;
}

function splitCell(cell: Cell): PlainRecord {
  const parts: Record<string, unknown> = { ...cell, source: lines(cell.source) };
  if ('attachments' in cell && cell.attachments !== undefined)
    parts['attachments'] = Object.fromEntries(
      Object.entries(cell.attachments).map(([name, bundle]) => [name, splitBundle(bundle)]),
    );
  if (cell.cell_type === 'code') parts['outputs'] = cell.outputs.map(splitOutput);
  return parts;
}

function splitOutput(output: Output): PlainRecord {
  if (output.output_type === 'stream') return { ...output, text: lines(output.text) };
  if (output.output_type === 'error') return { ...output };
  return { ...output, data: splitBundle(output.data) };
}

function splitBundle(bundle: PlainRecord): PlainRecord {
  return Object.fromEntries(
    Object.entries(bundle).map(([mime, value]) => [
      mime,
      typeof value === 'string' && isTextMime(mime) ? lines(value) : value,
    ]),
  );
}

function lines(text: string): string[] {
  return (text.match(LINE) ?? []).filter((line) => line !== '');
}

/** JSON with sorted keys: not by way of an object, which would put keys that look like numbers first. */
function jsonText(value: unknown, newline: string): string {
  const inner = `${newline} `;
  if (Array.isArray(value)) {
    if (value.length === 0) return '[]';
    if (value.every((item) => item === null || typeof item === 'number' || typeof item === 'boolean'))
      return `[${value.map((item) => jsonText(item, inner)).join(', ')}]`;
    return `[${inner}${value.map((item) => jsonText(item ?? null, inner)).join(`,${inner}`)}${newline}]`;
  }
  if (isRecord(value)) {
    const keys = Object.keys(value)
      .filter((key) => value[key] !== undefined)
      .sort();
    if (keys.length === 0) return '{}';
    const members = keys.map((key) => `${JSON.stringify(key)}: ${jsonText(value[key], inner)}`);
    return `{${inner}${members.join(`,${inner}`)}${newline}}`;
  }
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new RangeError(`formatNotebook requires finite numbers, got ${value}`);
  return JSON.stringify(value);
}
