/**
 * Value of a polynomial, by Horner's rule.
 *
 * @param coefficients - ascending powers, length >= 0
 * @param t - where
 * @returns the sum of coefficients[k] t^k; 0 without coefficients
 *
 * Cost: O(p).
 * @example
 * evaluatePolynomial([1, 2, 3], 2); // => 17
 */
export function evaluatePolynomial(coefficients: ArrayLike<number>, t: number): number {
  let value = 0;
  for (let k = coefficients.length - 1; k >= 0; k--) value = value * t + coefficients[k]!;
  return value;
}
