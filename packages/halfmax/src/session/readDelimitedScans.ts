import { refuse } from '../errors.js';
import type { Scan } from '../frames/types.js';
import { type Axis, axisOf, isPixelNumber } from './axisOf.js';
import { type DelimitedTable, parseDelimited } from './parseDelimited.js';
import { quoteValue } from './quoteValue.js';

const notRawCounts = /dark|backgr|refer|uncert|sigma|std|error|transm|absorb|reflect|correct|ratio|%/i;

function refuseFirstColumn(table: DelimitedTable, file: string): never {
  const values = table.columns[0]!;
  const direction = Math.sign(values[values.length - 1]! - values[0]!);
  let at = 1;
  while (at < values.length && values[at]! - values[at - 1]! === direction) at++;
  const almost =
    at > values.length / 2 ||
    values.filter((v, i) => i > 0 && v - values[i - 1]! === direction).length > values.length / 2;
  if (almost && at < values.length) {
    const what = `pixel number ${values[at]} follows ${values[at - 1]}`;
    refuse(
      file,
      `line ${table.lineNumbers[at]}, column 1`,
      what,
      'a line is missing or doubled: export the frame again',
    );
  }
  at = 1;
  while (at < values.length && Math.sign(values[at]! - values[at - 1]!) === direction) at++;
  const n = table.columns.length;
  const where = at < values.length ? `line ${table.lineNumbers[at]}, column 1` : 'column 1';
  const what = `of ${n} columns the first is neither pixel numbers one by one nor wavelengths that step evenly`;
  refuse(file, where, what, 'export pixel or wavelength and counts, or the counts alone');
}

/** Columns of counts: those after the axes that are not an axis once more. */
function frameColumns(table: DelimitedTable, axes: number, file: string): number[] {
  const { columns, names } = table;
  const kept: number[] = [];
  for (let column = axes; column < columns.length; column++) {
    const values = columns[column]!;
    const isAxisAgain = columns
      .slice(0, axes)
      .some((axis) => axis.length > 1 && axis.every((value, i) => value === values[i]));
    if (isAxisAgain) continue;
    const name = names[column]!;
    if (name !== '' && names.slice(0, axes).includes(name)) {
      const what = `column ${column + 1} is called ${quoteValue(name)} like the first, and holds other numbers`;
      refuse(file, `column ${column + 1}`, what, 'export one axis, and the columns of counts after it');
    }
    kept.push(column);
  }
  return kept;
}

function reversed(values: Float64Array): Float64Array {
  return values.slice().reverse();
}

/**
 * The frames in a delimited text: one column of counts, or pixel numbers, wavelengths or both and then counts. Several
 * columns of counts are several frames.
 *
 * A column of pixels or wavelengths that stands before each column of counts counts once.
 *
 * Rows are pixels in file order, whichever way a wavelength column runs; only falling pixel numbers turn the order
 * round. A single column is always counts.
 *
 * @param text - the whole file
 * @param file - its name relative to the session folder
 * @returns one scan per column of counts
 * @throws {BadInputError} as {@link parseDelimited}; a first column that is no axis; columns that are not raw counts
 * @example
 * Array.from(readDelimitedScans('1;10\n2;12\n3;11\n', 'a.csv')[0].counts); // => [10, 12, 11]
 */
export function readDelimitedScans(text: string, file: string): Scan[] {
  const table = parseDelimited(text, file);
  const width = table.columns.length;
  const axes: Axis[] = [];
  while (width > 1 && axes.length < Math.min(2, width - 1)) {
    const column = axes.length;
    const axis = axisOf(table.columns[column]!, table.names[column]!);
    if (axis === null) break;
    // Two axes must differ; a second one of the same kind is a column of counts that happens to rise.
    if (axes.some((other) => other.kind === axis.kind)) break;
    axes.push(axis);
  }
  if (width > 1 && axes.length === 0) refuseFirstColumn(table, file);

  const pixelColumn = axes.findIndex((axis) => axis.kind === 'pixel');
  const wavelengthColumn = axes.findIndex((axis) => axis.kind === 'wavelength');
  const pixels = pixelColumn < 0 ? null : table.columns[pixelColumn]!;
  const falls = pixels !== null && isPixelNumber(pixels) && pixels[1]! < pixels[0]!;
  let wavelengthNm: Float64Array | null = null;
  if (wavelengthColumn >= 0) {
    const scale = (axes[wavelengthColumn] as { nmPerUnit: number }).nmPerUnit;
    wavelengthNm = table.columns[wavelengthColumn]!.map((v) => v * scale);
    if (falls) wavelengthNm = reversed(wavelengthNm);
  }
  const frames = frameColumns(table, axes.length, file);
  return frames.map((column) => {
    const values = table.columns[column]!;
    const name = table.names[column]!;
    const several = frames.length > 1;
    if (several && notRawCounts.test(name)) {
      const what = `column ${column + 1} is called ${quoteValue(name)}: frames must hold raw counts alone`;
      refuse(file, `column ${column + 1}`, what, 'export only the column of raw counts');
    }
    const counts = falls ? reversed(values) : values;
    return {
      file,
      column: several ? (name === '' ? `column ${column + 1}` : name) : '',
      counts,
      wavelengthNm,
    };
  });
}
