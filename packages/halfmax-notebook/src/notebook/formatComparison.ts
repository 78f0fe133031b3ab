import { formatQuantity } from 'halfmax/metrics';
import type { NotebookComparison } from './compareNotebooks.js';
import type { QuantityMove, StatedNumber } from './compareQuantities.js';
import { changeOf, type Difference } from './compareTexts.js';
import { describeTolerance } from './tolerance.js';

/** Differences of one cell that are printed; the rest is counted. */
const MOST = 12;

/**
 * A comparison as text for a terminal.
 *
 * @param comparison - of two notebooks
 * @param a - name of the first
 * @param b - name of the second
 * @returns lines, with a line break at the end
 */
export function formatComparison(comparison: NotebookComparison, a: string, b: string): string {
  const { cells, inputs, inputsKnown, tolerance } = comparison;
  const lines = [`a  ${a}`, `b  ${b}`, ''];
  lines.push(...inputLines(inputs, inputsKnown));
  for (const cell of cells) {
    if (cell.status === 'same') continue;
    lines.push(cell.status === 'different' ? cell.place : `${cell.place}: ${cell.status}`);
    for (const difference of cell.differences.slice(0, MOST)) lines.push(...differenceLines(difference));
    if (cell.differences.length > MOST)
      lines.push(`  and ${cell.differences.length - MOST} further differences`);
    const moved = cell.quantities.filter((quantity) => !quantity.isSame);
    if (moved.length > 0) lines.push(...moved.map(quantityLine));
    lines.push('');
  }
  const count = (status: string): number => cells.filter((cell) => cell.status === status).length;
  const quantities = cells.flatMap((cell) => cell.quantities);
  const moved = quantities.filter((quantity) => !quantity.isSame);
  if (quantities.length > 0) lines.push(quantitySummary(quantities.length, moved));
  const parts = ['same', 'different', 'only in a', 'only in b']
    .filter((status) => status === 'same' || count(status) > 0)
    .map((status) => `${count(status)} ${status}`);
  lines.push(`${cells.length} cells: ${parts.join(', ')}; numbers compared ${describeTolerance(tolerance)}.`);
  return `${lines.join('\n')}\n`;
}

function inputLines(
  inputs: NotebookComparison['inputs'],
  known: NotebookComparison['inputsKnown'],
): string[] {
  if (!known.a && !known.b) return ['Neither notebook says what went into it.', ''];
  if (!known.a || !known.b) return [`Only ${known.a ? 'a' : 'b'} says what went into it.`, ''];
  if (inputs.length === 0) return ['Inputs: the same.', ''];
  const width = Math.max(...inputs.map(({ name }) => name.length));
  return [
    'Inputs that differ',
    ...inputs.map(({ name, a, b }) => `  ${name.padEnd(width)}  ${a || '(none)'} → ${b || '(none)'}`),
    '',
  ];
}

function differenceLines({ where, a, b }: Difference): string[] {
  const [one, other] = [a === '' ? '(none)' : a, b === '' ? '(none)' : b];
  if (where.length + one.length + other.length < 90) return [`  ${where}: ${one} → ${other}`];
  return [`  ${where}`, `    a  ${one}`, `    b  ${other}`];
}

function quantityLine(quantity: QuantityMove): string {
  const unit = quantity.unit === '' ? '' : ` / ${quantity.unit}`;
  const head = `  ${quantity.name}${unit}: ${stated(quantity.a)} → ${stated(quantity.b)}`;
  if (quantity.a !== null && quantity.b !== null && quantity.a.unit !== quantity.b.unit)
    return `${head}, the unit was ${quantity.a.unit || '1'} and is ${quantity.b.unit || '1'}`;
  if (quantity.change === null) return head;
  const change = quantity.change === 0 ? 'value the same' : changeOf(0, quantity.change);
  return `${head}, ${change}${inParts(quantity.inUncertainties)}`;
}

function inParts(parts: number | null): string {
  if (parts === null) return '';
  return ` (${Math.abs(parts) < 0.005 ? 'below 0.01' : Math.abs(parts).toFixed(2)} combined standard uncertainties)`;
}

function stated(number: StatedNumber | null): string {
  if (number === null) return '(not there)';
  const { value, standardUncertainty, absent } = number;
  if (value === undefined) return `(none: ${absent ?? 'no value'})`;
  return formatQuantity({ value, standardUncertainty: standardUncertainty ?? 0, interval95: [value, value] });
}

function quantitySummary(all: number, moved: readonly QuantityMove[]): string {
  if (moved.length === 0) return `${all} quantities: none moved.`;
  const parts = moved.map(({ inUncertainties }) => Math.abs(inUncertainties ?? 0));
  const largest = moved[parts.indexOf(Math.max(...parts))]!;
  const most =
    largest.inUncertainties === null
      ? ''
      : `; the furthest is ${largest.name}${inParts(largest.inUncertainties)}`;
  return `${all} quantities: ${moved.length} moved${most}.`;
}
