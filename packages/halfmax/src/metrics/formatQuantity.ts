import { isAbsent } from './quantity.js';
import type { Quantity } from './types.js';

/**
 * A number with its uncertainty as text: both to the same decimal, the uncertainty to two significant digits.
 *
 * @param number - value and standard uncertainty, in one unit
 * @returns such as `3.273 ± 0.012`; a bare value where the uncertainty is 0; an en dash where there is no number
 * Source: JCGM 100:2008, 7.2.6 (digits of a stated uncertainty).
 * @example
 * formatQuantity({ value: 3.27312, standardUncertainty: 0.01189, interval95: [3.2, 3.3] }); // => '3.273 ± 0.012'
 */
export function formatQuantity(number: Quantity): string {
  if (isAbsent(number)) return '–';
  const { value, standardUncertainty } = number;
  if (standardUncertainty === 0) return String(Number(value.toPrecision(6)));
  const decimals = decimalsFor(standardUncertainty);
  return `${value.toFixed(decimals)} ± ${standardUncertainty.toFixed(decimals)}`;
}

/**
 * Decimals that show a standard uncertainty to two significant digits.
 *
 * @param standardUncertainty - above 0
 * @returns 0 to 20
 */
export function decimalsFor(standardUncertainty: number): number {
  const exponent = Number(standardUncertainty.toExponential(1).split('e')[1]);
  return Math.min(20, Math.max(0, 1 - exponent));
}
