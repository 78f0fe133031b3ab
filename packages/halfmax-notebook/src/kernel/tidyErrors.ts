import { basename, sep } from 'node:path';
import { inspect } from 'node:util';
import type { CellSources } from './cellSources.js';

/** An error as the protocol of Jupyter wants it. */
export interface CellError {
  readonly ename: string;
  readonly evalue: string;
  readonly traceback: readonly string[];
}

/** What the compiler has against a cell: lines and characters count from 0. */
export interface Diagnostic {
  readonly start: { readonly line: number; readonly character: number };
  readonly messageText: string;
  readonly fileName?: string;
}

/** Folders whose names tell of the machine, and what to write in their place. */
export type KnownFolders = readonly { readonly folder: string; readonly name: string }[];

const MOST_FRAMES = 12;
const MOST_DIAGNOSTICS = 10;

/**
 * Makes every stack trace of this process tell the places of the TypeScript, without frames of the kernel and without
 * paths of the machine.
 *
 * @param sources - the way back to the TypeScript
 * @param kernelFolders - folders whose frames say nothing to a reader
 */
export function tidyStackTraces(sources: CellSources, kernelFolders: readonly string[]): void {
  Error.prepareStackTrace = (error, sites) => {
    const frames: string[] = [];
    for (const site of sites) {
      const file = site.getFileName();
      if (
        file === null ||
        file === undefined ||
        file.startsWith('node:') ||
        file === 'evalmachine.<anonymous>'
      )
        continue;
      const path = file.startsWith('file://') ? decodeURIComponent(file.slice(7)) : file;
      if (kernelFolders.some((folder) => path.startsWith(folder))) continue;
      const line = site.getLineNumber() ?? 0;
      const column = site.getColumnNumber() ?? 0;
      if (sources.isAround(path, line)) continue;
      const place = sources.placeOf(path, line, column);
      const caller = site.getFunctionName();
      const shown = place === null ? `${shortPath(path)}:${line}:${column}` : placeText(place);
      frames.push(caller === null || caller === '' ? `    at ${shown}` : `    at ${caller} (${shown})`);
      if (frames.length === MOST_FRAMES) break;
    }
    return [headline(error), ...frames].join('\n');
  };
}

/**
 * What was thrown in a cell, as an error of Jupyter.
 *
 * @param thrown - anything
 * @param folders - to be hidden
 * @returns name, message and the trace line by line
 */
export function describeThrown(thrown: unknown, folders: KnownFolders): CellError {
  if (!(thrown instanceof Error)) {
    const evalue = hidePaths(inspect(thrown, { depth: 2, breakLength: 100 }), folders);
    return { ename: 'Thrown', evalue, traceback: [`Thrown: ${evalue}`] };
  }
  const isInterrupt =
    (thrown as { code?: unknown }).code === 'ERR_SCRIPT_EXECUTION_INTERRUPTED' ||
    thrown.message === 'Interrupted asynchronously';
  if (isInterrupt) {
    const evalue = 'the cell was interrupted';
    return { ename: 'Interrupted', evalue, traceback: [`Interrupted: ${evalue}`] };
  }
  const ename = thrown.name || thrown.constructor.name;
  const evalue = hidePaths(thrown.message, folders);
  const traceback = hidePaths(thrown.stack ?? headline(thrown), folders).split('\n');
  if (thrown.cause !== undefined) {
    const cause = describeThrown(thrown.cause, folders);
    traceback.push('caused by', ...cause.traceback);
  }
  return { ename, evalue, traceback };
}

/**
 * What the compiler has against a cell, as an error of Jupyter.
 *
 * @param diagnostics - in the order of the cell, at least one
 * @param cell - its number
 * @param source - its text
 * @returns name, message and one entry per fault, with the line it is on
 */
export function describeDiagnostics(
  diagnostics: readonly Diagnostic[],
  cell: number,
  source: string,
): CellError {
  const lines = source.split('\n');
  const [first] = diagnostics as [Diagnostic, ...Diagnostic[]];
  const more = diagnostics.length - 1;
  const evalue = `line ${first.start.line + 1}: ${first.messageText}${more > 0 ? ` (and ${more} more)` : ''}`;
  const traceback = [`TypeScriptError: ${evalue}`];
  for (const { start, messageText, fileName } of diagnostics.slice(0, MOST_DIAGNOSTICS)) {
    const name = fileName ?? `cell ${cell}`;
    traceback.push(`    at ${placeText({ name, line: start.line + 1, column: start.character + 1 })}`);
    const text = fileName === undefined ? lines[start.line] : undefined;
    if (text !== undefined) traceback.push(`        ${text.trim().slice(0, 100)}`);
    traceback.push(`        ${messageText}`);
  }
  return { ename: 'TypeScriptError', evalue, traceback };
}

/**
 * A text without the machine's folders.
 *
 * @param text - any
 * @param folders - longest first
 * @returns the text, each folder replaced by its name
 */
export function hidePaths(text: string, folders: KnownFolders): string {
  return folders.reduce((shown, { folder, name }) => shown.replaceAll(folder, name), text);
}

function placeText({ name, line, column }: { name: string; line: number; column: number }): string {
  return `${name}, line ${line}:${column}`;
}

/** `halfmax/dist/bundle/numeric.js` for a package's file, its folder for a part whose name says nothing; else the file's own name. */
function shortPath(path: string): string {
  const parts = path.split(sep);
  const after = Math.max(parts.lastIndexOf('node_modules'), parts.lastIndexOf('packages'));
  const shown = after >= 0 ? parts.slice(after + 1).join('/') : basename(path);
  return shown.replace(/\/part-[A-Z0-9]+\.js$/, '');
}

function headline(error: unknown): string {
  try {
    return String(error);
  } catch {
    return 'Error';
  }
}
