import { refuse } from '../errors.js';
import type { Warning } from '../frames/types.js';
import { isStrictlyMonotonic, wavelengthUnits } from './axisOf.js';
import { decodeText } from './decodeText.js';
import { frameFormat } from './frameFormat.js';
import { type DelimitedTable, parseDelimited } from './parseDelimited.js';
import { quoteValue } from './quoteValue.js';
import { readBytes } from './readBytes.js';

/** A transmittance curve from a table. */
export interface CurveFile {
  /** Strictly increasing, nm. */
  readonly wavelengthNm: Float64Array;
  /** Fraction; negative noise and padded ends are kept as they stand. */
  readonly transmittance: Float64Array;
  /** Standard uncertainty as a fraction, if the table has it. */
  readonly standardUncertainty: Float64Array | null;
  readonly warnings: readonly Warning[];
}

const metre = {
  name: 'm',
  nmPerUnit: 1e9,
  from: 1.5e-7,
  to: 2.5e-6,
  header: /(?:^|[^a-z])m(?:$|[^a-z])|^metres?$/i,
};
/** A curve whose largest value is above this is in percent: no fraction with noise is. */
const largestFraction = 1.5;

/** nm per unit, from the range of the values; a header that says otherwise is refused. */
function wavelengthScale(
  values: Float64Array,
  name: string,
  file: string,
): { nmPerUnit: number; name: string } {
  const low = Math.min(values[0]!, values[values.length - 1]!);
  const high = Math.max(values[0]!, values[values.length - 1]!);
  const units = [...wavelengthUnits, metre];
  const named = units.find((unit) => unit.header.test(name));
  const fitting = units.filter((unit) => low >= unit.from && high <= unit.to);
  const unit = fitting.find((candidate) => candidate === named) ?? fitting[0];
  const range = `${low} to ${high}`;
  if (unit === undefined) {
    const what = `wavelengths from ${range} are neither nm, um, Angstrom nor m of 150 to 2500 nm`;
    refuse(file, 'column 1', what, 'give wavelengths in nm');
  }
  if (named !== undefined && named !== unit) {
    refuse(
      file,
      'column 1',
      `is called ${quoteValue(name)}, but ${range} would be ${unit.name}`,
      'correct the header or the values',
    );
  }
  return unit;
}

function requireDirection(table: DelimitedTable, file: string): void {
  const values = table.columns[0]!;
  if (isStrictlyMonotonic(values)) return;
  const direction = Math.sign(values[values.length - 1]! - values[0]!);
  let at = 1;
  while (at < values.length && Math.sign(values[at]! - values[at - 1]!) === direction && direction !== 0)
    at++;
  const what =
    values[at] === values[at - 1]
      ? `wavelength ${values[at]} is given twice`
      : `wavelength ${values[at]} follows ${values[at - 1]}`;
  refuse(file, `line ${table.lineNumbers[at]}, column 1`, what, 'sort the table by wavelength, each once');
}

/**
 * Reads a transmittance curve from a table of wavelength and transmittance: nm, um, Angstrom or m; fraction or
 * percent; rising or falling wavelengths; a third column of standard uncertainty where the header says so.
 *
 * @param path - file to read
 * @returns the curve, rising in wavelength; what was concluded about units is in the warnings
 * @throws {BadInputError} no table, one column only, wavelengths given twice or out of order, units that cannot be
 */
export function readCurve(path: string): CurveFile {
  const bytes = readBytes(path, path, 64);
  if (frameFormat(bytes) !== 'text')
    refuse(path, '', 'is not a delimited text', 'give a table of wavelength and transmittance');
  const table = parseDelimited(decodeText(bytes, path), path);
  const warnings: Warning[] = [];
  const warn = (what: string): void => {
    warnings.push({ where: path, what });
  };
  const [wavelength, values, third] = table.columns;
  const [wavelengthName = '', valueName = '', thirdName = ''] = table.names;
  if (wavelength === undefined || values === undefined)
    refuse(path, '', 'holds one column', 'give wavelength and transmittance');
  if (values.length < 3) refuse(path, '', `holds ${values.length} points`, 'a curve needs at least 3');
  if (/\bOD\b|optical density|absorb|\bdB\b/i.test(valueName)) {
    refuse(
      path,
      'column 2',
      `is called ${quoteValue(valueName)}`,
      'give transmittance as a fraction or in percent',
    );
  }
  requireDirection(table, path);
  const unit = wavelengthScale(wavelength, wavelengthName, path);
  if (unit.name !== 'nm') warn(`wavelengths are read as ${unit.name}`);
  const largest = values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const inPercent = largest > largestFraction || /%|percent/i.test(valueName);
  if (inPercent)
    warn(
      largest > largestFraction
        ? `transmittances up to ${largest} are read as percent`
        : 'transmittances are read as percent, as the header says',
    );
  if (largest > (inPercent ? 150 : largestFraction)) {
    refuse(
      path,
      'column 2',
      `holds ${largest}, more than any transmittance`,
      'give transmittance as a fraction or in percent',
    );
  }
  const isUncertainty = /uncert|sigma|std|error|±|^u\b/i.test(thirdName);
  const unused = table.columns.length - (third !== undefined && isUncertainty ? 3 : 2);
  if (unused > 0) warn(`${unused} further ${unused === 1 ? 'column is' : 'columns are'} not used`);
  const falls = wavelength[0]! > wavelength[1]!;
  const scaled = (column: Float64Array, factor: number, divisor: number): Float64Array => {
    const out = column.map((v) => (v * factor) / divisor);
    return falls ? out.reverse() : out;
  };
  const divisor = inPercent ? 100 : 1;
  const nmPerUnit = unit.nmPerUnit;
  let standardUncertainty: Float64Array | null = null;
  if (third !== undefined && isUncertainty) {
    const bad = third.findIndex((v) => v < 0);
    if (bad >= 0)
      refuse(
        path,
        `line ${table.lineNumbers[bad]}, column 3`,
        `the uncertainty ${third[bad]} is negative`,
        'correct it',
      );
    standardUncertainty = scaled(third, 1, divisor);
  }
  return {
    wavelengthNm: nmPerUnit < 1 ? scaled(wavelength, 1, 1 / nmPerUnit) : scaled(wavelength, nmPerUnit, 1),
    transmittance: scaled(values, 1, divisor),
    standardUncertainty,
    warnings,
  };
}
