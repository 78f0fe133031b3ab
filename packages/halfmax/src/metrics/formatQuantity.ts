import { isAbsent } from './quantity.js';
import type { Quantity } from './types.js';

/**
 * A number with its uncertainty as text: both to the same decimal, the uncertainty to two significant digits.
 *
 * @param number - value and standard uncertainty, in one unit
 * @returns such as `3.273 ± 0.012`; a bare value where the uncertainty is 0; an en dash where there is no number; never
 *   a zero with a minus
 * Source: JCGM 100:2008, 7.2.6 (digits of a stated uncertainty).
 * @example
 * formatQuantity({ value: 3.27312, standardUncertainty: 0.01189, interval95: [3.2, 3.3] }); // => '3.273 ± 0.012'
 */
export function formatQuantity(number: Quantity): string {
  if (isAbsent(number)) return '–';
  const { value, standardUncertainty } = number;
  if (standardUncertainty === 0) return String(Number(value.toPrecision(6)) + 0);
  const digits = formatDigits(value, standardUncertainty);
  return `${digits.value} ± ${digits.uncertainty}`;
}

/**
 * The digits of a number and of its standard uncertainty: two of the uncertainty, the number to the same place, tens or
 * hundreds included.
 *
 * @param value - the number
 * @param standardUncertainty - above 0, same unit
 * @returns both as text
 * Source: JCGM 100:2008, 7.2.6.
 * @example
 * formatDigits(-0.04, 1.84); // => { value: '0.0', uncertainty: '1.8' }
 */
export function formatDigits(
  value: number,
  standardUncertainty: number,
): { readonly value: string; readonly uncertainty: string } {
  const step = 10 ** Math.max(0, exponentOf(standardUncertainty) - 1);
  const decimals = decimalsFor(standardUncertainty);
  const text = (number: number): string => {
    const rounded = (Math.round(number / step) * step).toFixed(0);
    const digits = step > 1 ? rounded : number.toFixed(decimals);
    return /[1-9]/.test(digits) ? digits : digits.replace('-', '');
  };
  return { value: text(value), uncertainty: text(standardUncertainty) };
}

/**
 * Decimals that show a standard uncertainty to two significant digits.
 *
 * @param standardUncertainty - above 0
 * @returns 0 to 20
 */
export function decimalsFor(standardUncertainty: number): number {
  return Math.min(20, Math.max(0, 1 - exponentOf(standardUncertainty)));
}

/** Power of ten of the first digit, after rounding to two digits. */
function exponentOf(standardUncertainty: number): number {
  return Number(standardUncertainty.toExponential(1).split('e')[1]);
}
