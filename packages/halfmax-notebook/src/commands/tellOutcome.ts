import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import {
  compareNotebooks,
  formatComparison,
  type Notebook,
  readNotebook,
  refuse,
} from '../notebook/index.js';
import type { OutFolder, RerunOptions, RerunResult, RunFailure } from '../run/index.js';
import type { Terminal } from './terminal.js';
import { namesFor } from './writeOutcome.js';

/**
 * Says how far a notebook has come.
 *
 * @param file - the notebook
 * @param terminal - where to write
 * @returns told of each cell that has ended
 */
export function progressOf(file: string, terminal: Terminal): RerunOptions['onCell'] {
  const name = basename(file);
  const { cells } = readNotebook(readFileSync(file, 'utf8'), file);
  const count = cells.filter(({ cell_type, source }) => cell_type === 'code' && source.trim() !== '').length;
  const said = (text: string): void =>
    terminal.error(terminal.showsProgress ? `\r\x1b[2K${text}` : `${text}\n`);
  said(`${name}: starting a kernel`);
  return (cell, id, seconds) => said(`${name}: cell ${cell} of ${count} (${id}) ${seconds.toFixed(1)} s`);
}

/**
 * Says how a notebook ended.
 *
 * @param file - the notebook
 * @param result - what came out
 * @param out - where it was put, or null where nothing was written
 * @param terminal - where to write
 */
export function tellOutcome(
  file: string,
  { failure }: RerunResult,
  out: OutFolder | null,
  terminal: Terminal,
): void {
  const clear = terminal.showsProgress ? '\r\x1b[2K' : '';
  const { done, failed } = namesFor(file);
  const name = failure === null ? done : failed;
  const where = out === null ? '' : ` ${join(out.folder, name)}`;
  if (failure === null) terminal.error(`${clear}${basename(file)}: done${where}\n`);
  else terminal.error(`${clear}${failureText(file, failure)}\n${clear}${basename(file)}: failed${where}\n`);
}

function failureText(file: string, { cell, id, line, name, message }: RunFailure): string {
  const place = cell === null ? '' : ` cell ${cell} (${id})${line === null ? '' : `, line ${line}`}:`;
  return `${file}:${place} ${name}: ${message}`.replace(/\s*[\r\n]+\s*/g, ' ');
}

/**
 * Whether a notebook ran as its file says it did; what differs goes to the terminal.
 *
 * @param file - the notebook with its outputs
 * @param executed - as it ran now
 * @param terminal - where to write
 * @returns true where nothing differs
 * @throws {BadInputError} the file holds no outputs
 */
export function isSame(file: string, executed: Notebook, terminal: Terminal): boolean {
  const held = readNotebook(readFileSync(file, 'utf8'), file);
  const ran = held.cells.some((cell) => cell.cell_type === 'code' && cell.execution_count !== null);
  if (!ran) refuse(file, '', 'holds no outputs to compare with', 'run it without --check first');
  const comparison = compareNotebooks(held, executed);
  terminal.out(
    comparison.isSame
      ? `${file}: the same\n`
      : `${file}: different\n${formatComparison(comparison, file, 'run anew')}`,
  );
  return comparison.isSame;
}
