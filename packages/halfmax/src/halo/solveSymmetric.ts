/**
 * Solves a symmetric positive system scaled to a unit diagonal, with damping.
 *
 * @param matrix - p x p, row after row, lower half used; not altered
 * @param right - length p; not altered
 * @param p - order
 * @param damping - added to the unit diagonal, >= 0
 * @returns the solution, or null where the system is singular
 *
 * Source: Golub, Van Loan, Matrix Computations, section 4.2. Cost: O(p^3).
 */
export function solveSymmetric(
  matrix: Float64Array,
  right: Float64Array,
  p: number,
  damping: number,
): Float64Array | null {
  const scale = new Float64Array(p);
  for (let j = 0; j < p; j++) {
    const diagonal = matrix[j * p + j]!;
    // A column without any weight stays where it is.
    scale[j] = diagonal > 0 ? 1 / Math.sqrt(diagonal) : 0;
  }
  const factor = new Float64Array(p * p);
  const solution = new Float64Array(p);
  for (let j = 0; j < p; j++) {
    for (let i = j; i < p; i++) {
      let sum = matrix[i * p + j]! * scale[i]! * scale[j]!;
      if (i === j) sum = (scale[j] === 0 ? 1 : 1 + 1e-12) + damping;
      for (let k = 0; k < j; k++) sum -= factor[i * p + k]! * factor[j * p + k]!;
      if (i === j) {
        if (!(sum > 1e-13)) return null;
        factor[j * p + j] = Math.sqrt(sum);
      } else factor[i * p + j] = sum / factor[j * p + j]!;
    }
  }
  for (let i = 0; i < p; i++) {
    let sum = right[i]! * scale[i]!;
    for (let k = 0; k < i; k++) sum -= factor[i * p + k]! * solution[k]!;
    solution[i] = sum / factor[i * p + i]!;
  }
  for (let i = p - 1; i >= 0; i--) {
    let sum = solution[i]!;
    for (let k = i + 1; k < p; k++) sum -= factor[k * p + i]! * solution[k]!;
    solution[i] = sum / factor[i * p + i]!;
  }
  for (let i = 0; i < p; i++) solution[i]! *= scale[i]!;
  return solution;
}
