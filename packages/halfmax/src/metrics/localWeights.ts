import { firstAbove } from '../numeric/index.js';

/** A local fit as a linear functional: value and slope at one place are sums of weights times pixels. */
export interface LocalWeights {
  /** Index of the first pixel that counts. */
  readonly from: number;
  readonly value: Float64Array;
  /** Per nm. */
  readonly slope: Float64Array;
}

/**
 * The pixel weights of a local polynomial fit with tricube weights, at one place.
 * The window is widened where it holds too few pixels for the degree.
 *
 * @param wavelengthNm - strictly increasing
 * @param trust - weight of each pixel in the fit, 0 leaves it out
 * @param atNm - where the fitted value and slope are wanted
 * @param halfWidthNm - half-width of the window
 * @param degree - of the polynomial
 * @returns weights of the pixels from `from` on, or null where the curve has too few pixels
 * Source: W. S. Cleveland, J. Am. Stat. Assoc. 74, 829 (1979) for the tricube weights. Cost: O(pixels in the window).
 */
export function localWeights(
  wavelengthNm: Float64Array,
  trust: Float64Array,
  atNm: number,
  halfWidthNm: number,
  degree: number,
): LocalWeights | null {
  const n = wavelengthNm.length;
  let reach = halfWidthNm;
  let from = 0;
  let to = 0;
  for (let tries = 0; ; tries++) {
    from = firstAbove(wavelengthNm, atNm - reach);
    to = from;
    let trusted = 0;
    for (; to < n && wavelengthNm[to]! < atNm + reach; to++) if (trust[to]! > 0) trusted++;
    if (trusted > degree) break;
    if (tries > 30) return null;
    reach *= 1.15;
  }
  const m = to - from;
  const root = new Float64Array(m);
  const columns: Float64Array[] = [];
  for (let i = 0; i < m; i++) {
    const t = (wavelengthNm[from + i]! - atNm) / reach;
    const tricube = (1 - Math.abs(t) ** 3) ** 3;
    root[i] = Math.sqrt(trust[from + i]! * tricube);
  }
  for (let k = 0; k <= degree; k++) {
    const column = new Float64Array(m);
    for (let i = 0; i < m; i++) column[i] = root[i]! * ((wavelengthNm[from + i]! - atNm) / reach) ** k;
    columns.push(column);
  }
  const triangle = orthogonalise(columns);
  const value = functional(columns, triangle, root, 0);
  const slope = functional(columns, triangle, root, 1);
  for (let i = 0; i < m; i++) slope[i]! /= reach;
  return { from, value, slope };
}

/** Gram-Schmidt in place (each column twice); returns the upper triangle. */
function orthogonalise(columns: Float64Array[]): Float64Array[] {
  const triangle = columns.map(() => new Float64Array(columns.length));
  columns.forEach((column, k) => {
    for (let pass = 0; pass < 2; pass++) {
      for (let j = 0; j < k; j++) {
        const r = dot(columns[j]!, column);
        triangle[j]![k]! += r;
        for (let i = 0; i < column.length; i++) column[i]! -= r * columns[j]![i]!;
      }
    }
    const norm = Math.sqrt(dot(column, column));
    triangle[k]![k] = norm;
    for (let i = 0; i < column.length; i++) column[i] = norm > 1e-12 ? column[i]! / norm : 0;
  });
  return triangle;
}

/** Weights of the pixels in coefficient `k` of the fit. */
function functional(
  columns: Float64Array[],
  triangle: Float64Array[],
  root: Float64Array,
  k: number,
): Float64Array {
  const p = columns.length;
  const z = new Float64Array(p);
  for (let i = k; i < p; i++) {
    let sum = i === k ? 1 : 0;
    for (let j = k; j < i; j++) sum -= triangle[j]![i]! * z[j]!;
    const pivot = triangle[i]![i]!;
    z[i] = pivot > 1e-12 ? sum / pivot : 0;
  }
  const weights = new Float64Array(root.length);
  for (let j = 0; j < p; j++) {
    for (let i = 0; i < root.length; i++) weights[i]! += z[j]! * columns[j]![i]! * root[i]!;
  }
  return weights;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
