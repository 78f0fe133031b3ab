/** Weighted least squares with orthonormal columns kept for further use. */
export interface LeastSquares {
  /** Orthonormal columns of the weighted design; dependent ones are left out. */
  readonly orthonormal: readonly Float64Array[];
  /** Weighted residuals: measured minus fitted over the standard deviation. */
  readonly residuals: Float64Array;
  /** Their sum of squares. */
  readonly sum: number;
}

/** A column whose part beyond the others is smaller than this share of itself brings nothing. */
const DEPENDENT = 1e-7;

/**
 * Takes columns out of values by Gram and Schmidt, each done twice.
 *
 * @param columns - of the design, each of length n
 * @param values - length n
 * @param variance - of the values, > 0, length n
 * @returns orthonormal columns and what is left
 *
 * Source: "twice is enough": Giraud, Langou, Rozloznik, Comput. Math. Appl. 50, 1069 (2005). Cost: O(n p^2).
 */
export function leastSquares(
  columns: readonly Float64Array[],
  values: Float64Array,
  variance: Float64Array,
): LeastSquares {
  const n = values.length;
  const roots = Float64Array.from(variance, (v) => 1 / Math.sqrt(v));
  const orthonormal: Float64Array[] = [];
  for (const column of columns) {
    const vector = Float64Array.from(column, (value, i) => value * roots[i]!);
    const before = Math.sqrt(dot(vector, vector));
    for (let pass = 0; pass < 2; pass++) takeOut(vector, orthonormal);
    const after = Math.sqrt(dot(vector, vector));
    if (!(after > DEPENDENT * before)) continue;
    for (let i = 0; i < n; i++) vector[i]! /= after;
    orthonormal.push(vector);
  }
  const residuals = Float64Array.from(values, (value, i) => value * roots[i]!);
  for (let pass = 0; pass < 2; pass++) takeOut(residuals, orthonormal);
  return { orthonormal, residuals, sum: dot(residuals, residuals) };
}

/** Takes the directions of orthonormal vectors out of a vector, in place. */
export function takeOut(vector: Float64Array, orthonormal: readonly Float64Array[]): void {
  for (const direction of orthonormal) {
    const share = dot(vector, direction);
    for (let i = 0; i < vector.length; i++) vector[i]! -= share * direction[i]!;
  }
}

/** Sum of products. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** Sum of products of a part with a longer vector from an index on. */
export function dotFrom(part: Float64Array, whole: Float64Array, first: number): number {
  let sum = 0;
  for (let i = 0; i < part.length; i++) sum += part[i]! * whole[first + i]!;
  return sum;
}

/** Adds a vector so many times to another of the same length, in place. */
export function addTimes(sum: Float64Array, factor: number, part: Float64Array): void {
  for (let k = 0; k < sum.length; k++) sum[k]! += factor * part[k]!;
}
