/**
 * Solves a symmetric positive definite system in place.
 *
 * @param matrix - p x p, row after row, lower half used; overwritten by its Cholesky factor
 * @param right - length p; overwritten by the solution
 * @param p - order
 * @returns false, with both arguments spoilt, when the matrix is not positive definite to within rounding
 *
 * Source: Golub, Van Loan, Matrix Computations, section 4.2. Cost: O(p^3), without allocation.
 */
export function solveCholesky(matrix: Float64Array, right: Float64Array, p: number): boolean {
  for (let j = 0; j < p; j++) {
    let pivot = matrix[j * p + j]!;
    for (let k = 0; k < j; k++) pivot -= matrix[j * p + k]! ** 2;
    if (!(pivot > 0 && pivot < Number.POSITIVE_INFINITY)) return false;
    const root = Math.sqrt(pivot);
    matrix[j * p + j] = root;
    for (let i = j + 1; i < p; i++) {
      let sum = matrix[i * p + j]!;
      for (let k = 0; k < j; k++) sum -= matrix[i * p + k]! * matrix[j * p + k]!;
      matrix[i * p + j] = sum / root;
    }
  }
  for (let i = 0; i < p; i++) {
    for (let k = 0; k < i; k++) right[i]! -= matrix[i * p + k]! * right[k]!;
    right[i]! /= matrix[i * p + i]!;
  }
  for (let i = p - 1; i >= 0; i--) {
    for (let k = i + 1; k < p; k++) right[i]! -= matrix[k * p + i]! * right[k]!;
    right[i]! /= matrix[i * p + i]!;
  }
  return true;
}
