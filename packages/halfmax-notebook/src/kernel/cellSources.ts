import { SourceMap } from 'node:module';
import { basename } from 'node:path';

type SourceMapPayload = ConstructorParameters<typeof SourceMap>[0];

/** A place in what a person wrote: lines and columns count from 1. */
export interface SourcePlace {
  readonly line: number;
  readonly column: number;
}

/** What leads from the JavaScript that runs back to the TypeScript of cells and of helper files. */
export interface CellSources {
  /** Keeps the way back for a piece of JavaScript: first made from TypeScript, then made into a CommonJS module. */
  readonly keepMaps: (javascript: string, first: SourceMapPayload, second: SourceMapPayload) => void;
  /** Says that a piece of JavaScript runs as a cell now; returns the name to run it under. */
  readonly nameCell: (javascript: string, cell: number, prefixLength: number) => string;
  /** Whether a place is the call that the kernel puts around a cell. */
  readonly isAround: (runName: string, line: number) => boolean;
  /** Where a place in running JavaScript comes from, or null where it is of neither a cell nor a helper file. */
  readonly placeOf: (
    runName: string,
    line: number,
    column: number,
  ) => ({ readonly name: string } & SourcePlace) | null;
}

interface Cell {
  readonly maps: readonly [SourceMap, SourceMap] | null;
  /** Characters put before the first line. */
  readonly prefix: number;
  readonly lines: number;
}

/** The compiler gets each cell behind one line of its own. */
const LINES_BEFORE = 1;
const CELL_NAME = /^cell (\d+)$/;

/**
 * An empty register of sources.
 *
 * @param cellFile - name under which the compiler sees every cell
 * @returns the register
 */
export function cellSources(cellFile: string): CellSources {
  const byText = new Map<string, readonly [SourceMap, SourceMap]>();
  const cells = new Map<string, Cell>();
  const helpers = new Map<string, readonly [SourceMap, SourceMap]>();

  const back = (
    [first, second]: readonly [SourceMap, SourceMap],
    line: number,
    column: number,
    linesBefore: number,
  ): SourcePlace | null => {
    const middle = second.findEntry(line - 1, column - 1);
    if (!('originalLine' in middle)) return null;
    const source = first.findEntry(middle.originalLine, middle.originalColumn);
    if (!('originalLine' in source)) return null;
    return { line: source.originalLine + 1 - linesBefore, column: source.originalColumn + 1 };
  };
  return {
    keepMaps: (javascript, first, second) => {
      const maps = [new SourceMap(first), new SourceMap(second)] as const;
      const source = basename(first.sources[0] ?? '');
      if (source === cellFile) byText.set(javascript, maps);
      else helpers.set(source.replace(/\.[tj]sx?$/, '.js'), maps);
    },
    nameCell: (javascript, cell, prefixLength) => {
      const name = `cell ${cell}`;
      const lines = javascript.split('\n').length;
      cells.set(name, { maps: byText.get(javascript) ?? null, prefix: prefixLength, lines });
      byText.clear();
      return name;
    },
    isAround: (runName, line) => line > (cells.get(runName)?.lines ?? Number.POSITIVE_INFINITY),
    placeOf: (runName, line, column) => {
      if (CELL_NAME.test(runName)) {
        const cell = cells.get(runName);
        if (cell === undefined || cell.maps === null) return null;
        const inCell = line === 1 ? Math.max(1, column - cell.prefix) : column;
        const place = back(cell.maps, line, inCell, LINES_BEFORE);
        return place === null || place.line < 1 ? null : { name: runName, ...place };
      }
      const maps = helpers.get(basename(runName));
      const place = maps === undefined ? null : back(maps, line, column, 0);
      return place === null ? null : { name: basename(runName).replace(/\.js$/, '.ts'), ...place };
    },
  };
}
