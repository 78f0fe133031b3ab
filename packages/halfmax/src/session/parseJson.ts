import { refuse } from '../errors.js';
import type { Warning } from '../frames/types.js';
import { quoteValue } from './quoteValue.js';
import { scanJson } from './scanJson.js';

const maxDepth = 64;

/** A position for people: line and column from 1. */
function placeOf(text: string, offset: number): string {
  const before = text.slice(0, offset);
  const lines = before.split(/\r\n|\n|\r/);
  return `line ${lines.length}, column ${lines[lines.length - 1]!.length + 1}`;
}

/**
 * Reads JSON and says where it is wrong. Keys given twice are legal JSON whose last value counts: warned of.
 *
 * @param text - the text; a byte-order mark is skipped
 * @param fileName - named in messages
 * @returns the value, and warnings
 * @throws {BadInputError} not JSON (with line and column), or more than 64 brackets nested
 * @example
 * parseJson('{"a": 1}', 'a.json').value; // => { a: 1 }
 */
export function parseJson(text: string, fileName: string): { value: unknown; warnings: Warning[] } {
  const body = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  if (body.trim() === '') refuse(fileName, '', 'is empty', 'write the session into it');
  const { fault, duplicates } = scanJson(body, maxDepth);
  if (fault !== null) refuse(fileName, placeOf(body, fault.offset), fault.what, fault.fix);
  const warnings = duplicates.map(({ key, offset }) => ({
    where: fileName,
    what: `${placeOf(body, offset)}: ${quoteValue(key)} is given twice in one object; the last one counts`,
  }));
  return { value: JSON.parse(body), warnings };
}
