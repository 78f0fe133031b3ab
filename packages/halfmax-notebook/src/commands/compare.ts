import { compareNotebooks, formatComparison, readNotebookFile, refuse } from '../notebook/index.js';
import { type CommandWords, readOptions } from './readOptions.js';
import type { Terminal } from './terminal.js';

const COMMAND = 'halfmax-notebook compare';

export const compareUsage: string = `  halfmax-notebook compare A.ipynb B.ipynb [--tolerance PART] [--absolute SIZE] [--json]
      says cell by cell what differs: sources, texts, numbers, tables, figures by their data, quantities
      --tolerance  part of a number that may differ, such as 1e-9 (left out: numbers are compared exactly)
      --absolute   size that a number may differ by (left out: 0)
      --json       print the comparison as JSON
      Exit codes: 0 the same, 3 different, 2 cannot be compared.
`;

/**
 * `halfmax-notebook compare`: what differs between two executed notebooks.
 *
 * @param args - words after `compare`
 * @param terminal - where to write
 * @returns exit code: 0 the same, 3 different
 * @throws {BadInputError} a wrong command, or a file that is no notebook: the caller's exit code 2
 */
export function compareCommand(args: readonly string[], terminal: Terminal): number {
  const words = readOptions(args, { tolerance: 'text', absolute: 'text', json: 'flag' }, 'compare');
  const [a, b, ...surplus] = words.positional;
  if (a === undefined || b === undefined)
    refuse(COMMAND, a === undefined ? 'A' : 'B', 'no notebook given', 'name two .ipynb files');
  if (surplus.length > 0) refuse(COMMAND, surplus[0]!, 'is a third file', 'compare two at a time');
  const tolerance = { relative: sizeFrom(words, 'tolerance'), absolute: sizeFrom(words, 'absolute') };
  const comparison = compareNotebooks(readNotebookFile(a), readNotebookFile(b), { tolerance });
  terminal.out(
    words.options.has('json')
      ? `${JSON.stringify(comparison, null, 1)}\n`
      : formatComparison(comparison, a, b),
  );
  return comparison.isSame ? 0 : 3;
}

function sizeFrom(words: CommandWords, name: string): number {
  const text = words.options.get(name)?.[0];
  if (text === undefined) return 0;
  const value = /^\d*\.?\d+(?:[eE][-+]?\d{1,3})?$/.test(text) ? Number(text) : Number.NaN;
  if (!(value >= 0 && value < Infinity))
    refuse(COMMAND, `--${name}`, `"${text}" is not a number from 0`, 'correct it or leave it out');
  return value;
}
