import { decimalsFor, formatQuantity, isAbsent, type Quantity } from 'halfmax/metrics';
import { type MimeBundle, QUANTITY_MIME } from '../notebook/index.js';
import { emit } from './emit.js';
import { escapeHtml } from './escapeHtml.js';
import { TEXT_CELL } from './textCell.js';

/** A number with its uncertainty as it stands in an output, for programs that compare notebooks. */
export interface ShownQuantity {
  readonly name: string;
  /** Empty where there is none. */
  readonly unit: string;
  readonly value?: number;
  readonly standardUncertainty?: number;
  readonly interval95?: readonly [number, number];
  /** Why there is no number. */
  readonly absent?: string;
}

/** A number whose 95 % interval may be unknown, or the reason why there is none. */
export type StatedQuantity =
  | Quantity
  | {
      readonly value: number;
      readonly standardUncertainty: number;
      readonly interval95?: readonly [number, number];
    };

/**
 * Shows a quantity: value and standard uncertainty to the same decimal, the uncertainty to two digits, and its 95 % interval.
 *
 * The full numbers go into the output too, so that two runs can be compared in parts of the stated uncertainty.
 *
 * @param name - such as `FWHM`
 * @param quantity - a number with its uncertainty, or why there is none
 * @param unit - such as `nm`; empty where it has none
 * @returns nothing inside a kernel; the representations by MIME type outside
 * @throws {RangeError} no name, a number that is not finite, an uncertainty below 0
 * Source: JCGM 100:2008, 7.2.6 (digits of a stated uncertainty).
 */
export function showQuantity(
  name: string,
  quantity: StatedQuantity,
  unit: string = '',
): MimeBundle | undefined {
  const shown = shownQuantity(name, quantity, unit);
  const text = quantityText(shown);
  return emit({ 'text/plain': text, 'text/html': htmlText(shown), [QUANTITY_MIME]: shown });
}

/**
 * Shows several quantities as one table of name, value with uncertainty, unit and 95 % interval.
 *
 * @param quantities - name, number and unit of each
 * @param caption - above the table
 * @returns nothing inside a kernel; the representations by MIME type outside
 * @throws {RangeError} as for {@link showQuantity}, or the same name twice
 */
export function showQuantities(
  quantities: readonly { readonly name: string; readonly quantity: StatedQuantity; readonly unit?: string }[],
  caption: string = '',
): MimeBundle | undefined {
  const shown = quantities.map(({ name, quantity, unit }) => shownQuantity(name, quantity, unit ?? ''));
  if (new Set(shown.map(({ name }) => name)).size !== shown.length)
    throw new RangeError('showQuantities requires different names, got the same twice');
  const rows = shown.map((one) => {
    const { number, interval } = quantityParts(one);
    const cells = [one.name, number, one.unit, interval].map(
      (cell) => `<td${TEXT_CELL}>${escapeHtml(cell)}</td>`,
    );
    return `<tr>${cells.join('')}</tr>`;
  });
  const head = ['Quantity', 'Value', 'Unit', '95 % interval'].map(
    (text) => `<th scope="col"${TEXT_CELL}>${text}</th>`,
  );
  const html = [
    '<table>',
    ...(caption === '' ? [] : [`<caption>${escapeHtml(caption)}</caption>`]),
    `<thead><tr>${head.join('')}</tr></thead>`,
    '<tbody>',
    ...rows,
    '</tbody>',
    '</table>',
  ].join('\n');
  const text = [...(caption === '' ? [] : [caption]), ...shown.map(quantityText)].join('\n');
  return emit({ 'text/plain': text, 'text/html': html, [QUANTITY_MIME]: { quantities: shown } });
}

function shownQuantity(name: string, quantity: StatedQuantity, unit: string): ShownQuantity {
  if (name.trim() === '') throw new RangeError('showQuantity requires a name, got an empty text');
  if (isAbsent(quantity as Quantity)) return { name, unit, absent: (quantity as { absent: string }).absent };
  const { value, standardUncertainty, interval95 } = quantity as Exclude<StatedQuantity, { absent: string }>;
  if (!Number.isFinite(value) || !Number.isFinite(standardUncertainty) || standardUncertainty < 0)
    throw new RangeError(
      `showQuantity requires a finite value and an uncertainty from 0, got ${value} and ${standardUncertainty}`,
    );
  const known = interval95?.every(Number.isFinite) === true;
  return { name, unit, value, standardUncertainty, ...(known ? { interval95: interval95! } : {}) };
}

/** The number with its uncertainty, and the interval to the same decimals; empty texts where there is none. */
function quantityParts(shown: ShownQuantity): { number: string; interval: string } {
  const { value, standardUncertainty, interval95 } = shown;
  if (value === undefined || standardUncertainty === undefined)
    return { number: `– (${shown.absent})`, interval: '' };
  const number = formatQuantity({ value, standardUncertainty, interval95: interval95 ?? [value, value] });
  if (interval95 === undefined || standardUncertainty === 0) return { number, interval: '' };
  const decimals = decimalsFor(standardUncertainty);
  return { number, interval: `${interval95[0].toFixed(decimals)} to ${interval95[1].toFixed(decimals)}` };
}

function quantityText(shown: ShownQuantity): string {
  const { number, interval } = quantityParts(shown);
  if (shown.absent !== undefined) return `${shown.name}: ${number}`;
  const withUnit = withUnitText(number, shown.unit);
  return `${shown.name} = ${withUnit}${interval === '' ? '' : `  (95 %: ${interval}${after(shown.unit)})`}`;
}

function htmlText(shown: ShownQuantity): string {
  const { number, interval } = quantityParts(shown);
  const name = escapeHtml(shown.name);
  if (shown.absent !== undefined) return `<p>${name}: ${escapeHtml(number)}</p>`;
  const tail = interval === '' ? '' : ` <small>(95 %: ${escapeHtml(interval + after(shown.unit))})</small>`;
  return `<p>${name} = <strong>${escapeHtml(withUnitText(number, shown.unit))}</strong>${tail}</p>`;
}

function withUnitText(number: string, unit: string): string {
  if (unit === '' || unit === '1') return number;
  return number.includes('±') ? `(${number})${after(unit)}` : `${number}${after(unit)}`;
}

function after(unit: string): string {
  return unit === '' || unit === '1' ? '' : ` ${unit}`;
}
