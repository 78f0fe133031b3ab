import { compareInputs, hasInputs, type InputDifference } from './compareInputs.js';
import { compareOutputs, pairs } from './compareOutputs.js';
import { compareQuantities, type QuantityMove } from './compareQuantities.js';
import { compareTexts, type Difference } from './compareTexts.js';
import { normaliseNotebook } from './normaliseNotebook.js';
import { EXACT, type Tolerance } from './tolerance.js';
import type { Cell, Notebook } from './types.js';
import { cellPlace } from './validateNotebook.js';

/** How notebooks are compared. */
export interface CompareOptions {
  /** Left out: numbers are compared exactly. */
  readonly tolerance?: Tolerance;
}

/** A cell in two notebooks. */
export interface CellComparison {
  /** Such as `cell 3 (load-data)`; counted in a, or in b where a has none. */
  readonly place: string;
  readonly id: string;
  readonly status: 'same' | 'different' | 'only in a' | 'only in b';
  readonly differences: readonly Difference[];
  readonly quantities: readonly QuantityMove[];
}

/** Two notebooks side by side. */
export interface NotebookComparison {
  /** Whether all cells, sources and outputs alike, are the same; inputs do not count. */
  readonly isSame: boolean;
  readonly tolerance: Tolerance;
  readonly inputs: readonly InputDifference[];
  /** Which of both say what went into them. */
  readonly inputsKnown: { readonly a: boolean; readonly b: boolean };
  readonly cells: readonly CellComparison[];
}

/**
 * Compares two executed notebooks cell by cell: source, texts, numbers, tables, figures by their data, quantities.
 *
 * Cells are paired by their ids, those without a fellow by their type and source.
 *
 * @param a - one notebook
 * @param b - the other
 * @param options - tolerance for numbers
 * @returns what is the same and what is not
 */
export function compareNotebooks(a: Notebook, b: Notebook, options: CompareOptions = {}): NotebookComparison {
  const tolerance = options.tolerance ?? EXACT;
  const [one, other] = [normaliseNotebook(a), normaliseNotebook(b)];
  const cells = pairCells(one.cells, other.cells).map(([i, j]) =>
    compareCells(
      i === null ? null : { cell: one.cells[i]!, index: i },
      j === null ? null : { cell: other.cells[j]!, index: j },
      tolerance,
    ),
  );
  return {
    isSame: cells.every(({ status }) => status === 'same'),
    tolerance,
    inputs: compareInputs(a, b),
    inputsKnown: { a: hasInputs(a), b: hasInputs(b) },
    cells,
  };
}

interface PlacedCell {
  readonly cell: Cell;
  readonly index: number;
}

function compareCells(a: PlacedCell | null, b: PlacedCell | null, tolerance: Tolerance): CellComparison {
  const known = (a ?? b)!;
  const head = { place: cellPlace(known.index, known.cell.id), id: known.cell.id };
  if (a === null || b === null)
    return { ...head, status: a === null ? 'only in b' : 'only in a', differences: [], quantities: [] };
  const differences: Difference[] = [];
  if (a.cell.cell_type !== b.cell.cell_type)
    differences.push({ kind: 'source', where: 'type of the cell', a: a.cell.cell_type, b: b.cell.cell_type });
  // The source is text: a number in it that changed is a change of the source, whatever the tolerance.
  for (const found of compareTexts(a.cell.source, b.cell.source, 'source', EXACT))
    differences.push({ ...found, kind: 'source' });
  let quantities: QuantityMove[] = [];
  if (a.cell.cell_type === 'code' && b.cell.cell_type === 'code') {
    differences.push(...compareOutputs(a.cell.outputs, b.cell.outputs, tolerance));
    quantities = compareQuantities(a.cell.outputs, b.cell.outputs, tolerance);
  }
  const isSame = differences.length === 0 && quantities.every((quantity) => quantity.isSame);
  return { ...head, status: isSame ? 'same' : 'different', differences, quantities };
}

function pairCells(a: readonly Cell[], b: readonly Cell[]): [number | null, number | null][] {
  const sharedIds = new Set(a.map(({ id }) => id).filter((id) => b.some((cell) => cell.id === id)));
  const label = (cell: Cell): string =>
    sharedIds.has(cell.id) ? `id ${cell.id}` : `${cell.cell_type} ${cell.source}`;
  const found = pairs(a.map(label), b.map(label));
  const isLone = found.some(([i, j]) => i === null || j === null);
  // No id in common and as many cells: written anew from the same text, so that their order pairs them.
  if (isLone && sharedIds.size === 0 && a.length === b.length) return a.map((_, index) => [index, index]);
  return found;
}
