/** The parts of a QR factorisation that a least-squares fit needs; columns scaled to unit length before. */
export interface WeightedQr {
  /** Makes the orthonormal columns, one after the other; as much work again as the factorisation. */
  readonly orthogonal: () => Float64Array;
  /** Inverse of the triangular factor with the column scale put back: (A'A)^-1 = inverseR inverseR'. */
  readonly inverseR: Float64Array[];
}

/**
 * Thin QR factorisation of a design matrix by Householder reflections, or null where its columns are not independent.
 *
 * @param design - n rows of p numbers one after the other, weights already multiplied in; not altered
 * @param columns - p
 * @returns the factors; null when a column is a combination of those before it to within rounding
 *
 * Source: Golub, Van Loan, Matrix Computations, section 5.3 (least squares by Householder QR). Cost: O(n p^2).
 */
export function weightedQr(design: Float64Array, columns: number): WeightedQr | null {
  const p = columns;
  const n = design.length / p;
  const lengths = new Float64Array(p);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < p; j++) lengths[j]! += design[i * p + j]! ** 2;
  }
  for (let j = 0; j < p; j++) {
    lengths[j] = Math.sqrt(lengths[j]!);
    if (!(lengths[j]! > 0) || lengths[j] === Number.POSITIVE_INFINITY) return null;
  }
  // Column after column: below the diagonal the reflections, above it the triangular factor.
  const work = new Float64Array(n * p);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < p; j++) work[j * n + i] = design[i * p + j]! / lengths[j]!;
  }
  const diagonal = new Float64Array(p);
  for (let k = 0; k < p; k++) {
    const own = k * n;
    // One by one, each time the larger taken out of the root: more exact than the root of the sum of squares.
    let length = 0;
    for (let i = k; i < n; i++) {
      const next = Math.abs(work[own + i]!);
      if (length > next) length *= Math.sqrt(1 + (next / length) * (next / length));
      else if (next !== 0) length = next * Math.sqrt(1 + (length / next) * (length / next));
    }
    if (work[own + k]! < 0) length = -length;
    diagonal[k] = -length;
    if (!(Math.abs(length) > n * Number.EPSILON)) return null;
    for (let i = k; i < n; i++) work[own + i]! /= length;
    work[own + k]! += 1;
    for (let j = k + 1; j < p; j++) reflect(work, own, work, j * n, k, n);
  }
  const orthogonal = (): Float64Array => {
    const q = new Float64Array(n * p);
    for (let k = p - 1; k >= 0; k--) {
      q[k * n + k] = 1;
      for (let j = k; j < p; j++) reflect(work, k * n, q, j * n, k, n);
    }
    return q;
  };
  return { orthogonal, inverseR: invertUpper(work, diagonal, n, lengths) };
}

/** Reflects one column, from row k on, by the reflection that stands in another from its row k on. */
function reflect(from: Float64Array, own: number, to: Float64Array, at: number, k: number, n: number): void {
  let sum = 0;
  for (let i = k; i < n; i++) sum += from[own + i]! * to[at + i]!;
  sum = -sum / from[own + k]!;
  for (let i = k; i < n; i++) to[at + i]! += sum * from[own + i]!;
}

function invertUpper(
  work: Float64Array,
  diagonal: Float64Array,
  n: number,
  lengths: Float64Array,
): Float64Array[] {
  const p = lengths.length;
  const inverse = Array.from({ length: p }, () => new Float64Array(p));
  for (let j = 0; j < p; j++) {
    inverse[j]![j] = 1 / diagonal[j]!;
    for (let i = j - 1; i >= 0; i--) {
      let sum = 0;
      for (let k = i + 1; k <= j; k++) sum += work[k * n + i]! * inverse[k]![j]!;
      inverse[i]![j] = -sum / diagonal[i]!;
    }
  }
  for (let i = 0; i < p; i++) {
    for (let j = i; j < p; j++) inverse[i]![j]! /= lengths[i]!;
  }
  return inverse;
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
