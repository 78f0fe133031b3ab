import type { PatchWork } from './patchWork.js';
import type { CellError, Diagnostic } from './tidyErrors.js';

/** What a cell that runs has come to. */
export interface RunningCell {
  readonly cell: number;
  readonly source: string;
  diagnostics: Diagnostic[];
  thrown: { readonly value: unknown } | null;
}

/**
 * Whether what tslab throws says no more than the number of a cell that failed, why having been told before.
 *
 * @param fault - as thrown
 * @returns true for such a number
 */
export function isCount(fault: unknown): boolean {
  return typeof fault === 'object' && fault !== null && 'count' in fault;
}

/**
 * The error that a cell ended with.
 *
 * @param running - what it came to
 * @param succeeded - as tslab says
 * @param work - what describes it
 * @param warn - writes what is against a cell that is kept in spite of it
 * @returns the error, or null where there is none
 */
export function errorOf(
  running: RunningCell,
  succeeded: boolean,
  work: PatchWork,
  warn: (text: string) => void,
): CellError | null {
  if (running.thrown !== null) return work.describeThrown(running.thrown.value);
  if (running.diagnostics.length === 0)
    return succeeded ? null : { ename: 'Failed', evalue: 'the cell failed without a reason', traceback: [] };
  const error = work.describeDiagnostics(running.diagnostics, running.cell, running.source);
  if (!succeeded) return error;
  // A cell that declares a module is kept in spite of its faults.
  warn(`${error.traceback.join('\n')}\n`);
  return null;
}
