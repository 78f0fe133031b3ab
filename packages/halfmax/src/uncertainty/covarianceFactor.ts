/**
 * Lower triangular factor L with L L' = V of a covariance matrix, which may be singular: a direction without
 * variance gives a column of zeros.
 *
 * @param covariance - n rows of n, symmetric, positive semidefinite
 * @returns n rows of n; entries above the diagonal are 0
 * @throws {RangeError} the matrix is not symmetric or not positive semidefinite
 *
 * Source: JCGM 101:2008, C.5 and 6.4.8 (Cholesky factor); the rule for zero pivots is the usual one. Cost: O(n^3).
 */
export function covarianceFactor(covariance: ArrayLike<ArrayLike<number>>): Float64Array[] {
  const n = covariance.length;
  const factor = Array.from({ length: n }, () => new Float64Array(n));
  for (let j = 0; j < n; j++) {
    const variance = covariance[j]![j]!;
    let pivot = variance;
    for (let k = 0; k < j; k++) pivot -= factor[j]![k]! ** 2;
    // Rounding leaves a singular pivot at some n eps of the variance; more below zero than that is a true fault.
    const slack = 1e-12 * Math.abs(variance);
    if (variance < 0 || pivot < -slack) throw notSemidefinite(`pivot ${pivot} in row ${j}`);
    const root = pivot <= slack ? 0 : Math.sqrt(pivot);
    factor[j]![j] = root;
    for (let i = j + 1; i < n; i++) {
      const scale = Math.sqrt(Math.abs(variance * covariance[i]![i]!));
      let rest = covariance[i]![j]!;
      if (Math.abs(rest - covariance[j]![i]!) > 1e-9 * scale) {
        throw new RangeError(
          `covarianceFactor requires a symmetric matrix, got a difference at row ${i}, column ${j}`,
        );
      }
      for (let k = 0; k < j; k++) rest -= factor[i]![k]! * factor[j]![k]!;
      if (root > 0) factor[i]![j] = rest / root;
      else if (Math.abs(rest) > 1e-6 * scale) throw notSemidefinite(`covariance ${rest} beside a zero pivot`);
    }
  }
  return factor;
}

function notSemidefinite(got: string): RangeError {
  return new RangeError(`covarianceFactor requires a positive semidefinite matrix, got ${got}`);
}
