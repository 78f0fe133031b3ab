import { Matrix, QrDecomposition } from 'ml-matrix';

/** The parts of a QR factorisation that a least-squares fit needs; columns scaled to unit length before. */
export interface WeightedQr {
  /** Makes the orthonormal columns, n rows of p; as much work again as the factorisation. */
  readonly orthogonal: () => Float64Array[];
  /** Inverse of the triangular factor with the column scale put back: (A'A)^-1 = inverseR inverseR'. */
  readonly inverseR: Float64Array[];
}

/**
 * Thin QR factorisation of a design matrix, or null where its columns are not independent.
 *
 * @param design - n rows of p numbers one after the other, weights already multiplied in; not altered
 * @param columns - p
 * @returns the factors; null when a column is a combination of those before it to within rounding
 *
 * Source: Golub, Van Loan, Matrix Computations, section 5.3 (least squares by Householder QR). Cost: O(n p^2).
 */
export function weightedQr(design: Float64Array, columns: number): WeightedQr | null {
  const n = design.length / columns;
  const lengths = new Float64Array(columns);
  for (let i = 0; i < design.length; i++) lengths[i % columns]! += design[i]! * design[i]!;
  for (let j = 0; j < columns; j++) {
    lengths[j] = Math.sqrt(lengths[j]!);
    if (!(lengths[j]! > 0) || lengths[j] === Number.POSITIVE_INFINITY) return null;
  }
  const scaled = new Matrix(n, columns);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < columns; j++) scaled.set(i, j, design[i * columns + j]! / lengths[j]!);
  }
  const factors = new QrDecomposition(scaled);
  const r = factors.upperTriangularMatrix.to2DArray();
  for (let j = 0; j < columns; j++) {
    if (!(Math.abs(r[j]![j]!) > n * Number.EPSILON)) return null;
  }
  const orthogonal = (): Float64Array[] =>
    factors.orthogonalMatrix.to2DArray().map((row) => Float64Array.from(row));
  return { orthogonal, inverseR: invertUpper(r, lengths) };
}

function invertUpper(r: number[][], lengths: Float64Array): Float64Array[] {
  const p = lengths.length;
  const inverse = Array.from({ length: p }, () => new Float64Array(p));
  for (let j = 0; j < p; j++) {
    inverse[j]![j] = 1 / r[j]![j]!;
    for (let i = j - 1; i >= 0; i--) {
      let sum = 0;
      for (let k = i + 1; k <= j; k++) sum += r[i]![k]! * inverse[k]![j]!;
      inverse[i]![j] = -sum / r[i]![i]!;
    }
  }
  return inverse.map((row, i) => row.map((value) => value / lengths[i]!));
}

/**
 * The covariance (A'A)^-1 from the inverse of the triangular factor.
 *
 * @param inverseR - p rows of p, upper triangular
 * @returns symmetric, p rows of p
 */
export function covarianceFromInverse(inverseR: readonly Float64Array[]): Float64Array[] {
  const p = inverseR.length;
  const covariance = Array.from({ length: p }, () => new Float64Array(p));
  for (let i = 0; i < p; i++) {
    for (let j = i; j < p; j++) {
      let sum = 0;
      for (let k = j; k < p; k++) sum += inverseR[i]![k]! * inverseR[j]![k]!;
      covariance[i]![j] = sum;
      covariance[j]![i] = sum;
    }
  }
  return covariance;
}
