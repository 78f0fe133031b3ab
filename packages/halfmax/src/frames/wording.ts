/**
 * A fraction as percent for a message, two significant digits.
 *
 * @param fraction - 0.0123 for 1.2 %
 * @returns text with a blank before the sign
 * @example
 * percent(0.0123); // => '1.2 %'
 */
export function percent(fraction: number): string {
  return `${plainNumber(100 * fraction, 2)} %`;
}

/**
 * A number for a message: so many significant digits, whole numbers kept whole, no exponent where it can be avoided.
 *
 * @param value - any finite number
 * @param digits - significant digits
 * @returns text
 * @example
 * plainNumber(775.4, 3); // => '775'
 */
export function plainNumber(value: number, digits = 4): string {
  const rounded = Number(value.toPrecision(digits));
  return Math.abs(value) >= 10 ** digits ? String(Math.round(value)) : String(rounded);
}
