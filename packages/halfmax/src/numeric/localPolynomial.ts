import { firstAbove } from './firstAbove.js';
import { requireWeights } from './requireWeights.js';

/** A smooth value with its derivatives, and the weights that made it. */
export interface LocalPolynomial {
  /** Fitted value, in the unit of y. */
  readonly value: number;
  /** First derivative, unit of y per unit of x. */
  readonly slope: number;
  /** Second derivative, unit of y per unit of x squared; 0 below degree 2. */
  readonly curvature: number;
  /** value = sum of weights[k] y[from + k]: gives the variance of the value from those of y. */
  readonly valueWeights: { readonly from: number; readonly weights: Float64Array };
}

/**
 * Smooth value of samples at a place: a polynomial fitted to the points near it, the nearer the heavier.
 *
 * @param x - strictly increasing, length n
 * @param y - length n
 * @param at - the place, in the unit of x
 * @param halfWidth - > 0; only points nearer than this count, by the tricube (1 - (d / halfWidth)^3)^3
 * @param degree - whole number >= 0
 * @param weights - 1/variance of each value, multiplied with the tricube; all 1 when left out
 * @returns value and derivatives at the place
 * @throws {RangeError} lengths, width or degree not as described, or fewer than degree + 1 points of weight in reach
 *
 * Source: Cleveland, J. Am. Stat. Assoc. 74, 829 (1979); orthogonal polynomials over the points: Forsythe,
 * J. SIAM 5, 74 (1957). Cost: O(log n + points in reach x degree).
 * @example
 * localPolynomial([0, 1, 2, 3, 4], [0, 1, 4, 9, 16], 2, 3, 2).curvature.toFixed(9); // => '2.000000000'
 */
export function localPolynomial(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  at: number,
  halfWidth: number,
  degree: number,
  weights?: ArrayLike<number>,
): LocalPolynomial {
  if (x.length !== y.length) {
    throw new RangeError(`localPolynomial requires x and y of one length, got ${x.length} and ${y.length}`);
  }
  if (!(halfWidth > 0) || !Number.isInteger(degree) || degree < 0 || !Number.isFinite(at)) {
    const found = `${at}, ${halfWidth}, ${degree}`;
    throw new RangeError(
      `localPolynomial requires a finite place, a width above 0 and a whole degree, got ${found}`,
    );
  }
  if (weights !== undefined && weights.length !== x.length)
    requireWeights('localPolynomial', weights, x.length);
  const from = firstAbove(x, at - halfWidth);
  let count = 0;
  while (from + count < x.length && x[from + count]! < at + halfWidth) count++;

  const t = new Float64Array(count);
  const kernel = new Float64Array(count);
  let useful = 0;
  for (let i = 0; i < count; i++) {
    t[i] = (x[from + i]! - at) / halfWidth;
    kernel[i] = (1 - Math.abs(t[i]!) ** 3) ** 3 * (weights === undefined ? 1 : weights[from + i]!);
    if (!(kernel[i]! >= 0)) requireWeights('localPolynomial', weights, x.length);
    if (kernel[i]! > 0) useful++;
  }
  if (useful <= degree) {
    throw new RangeError(
      `localPolynomial requires at least ${degree + 1} points of weight in reach, got ${useful}`,
    );
  }

  // Three-term recurrence at every point and, with its first two derivatives, at t = 0.
  let present = new Float64Array(count).fill(1);
  let previous = new Float64Array(count);
  let [value, slope, curvature] = [1, 0, 0];
  let [valueBefore, slopeBefore, curvatureBefore] = [0, 0, 0];
  let normBefore = 1;
  const result = { value: 0, slope: 0, curvature: 0 };
  const combined = new Float64Array(count);
  for (let k = 0; ; k++) {
    let norm = 0;
    let first = 0;
    let projection = 0;
    for (let i = 0; i < count; i++) {
      const part = kernel[i]! * present[i]!;
      norm += part * present[i]!;
      first += part * present[i]! * t[i]!;
      projection += part * y[from + i]!;
    }
    for (let i = 0; i < count; i++) combined[i]! += (value / norm) * kernel[i]! * present[i]!;
    result.value += (projection / norm) * value;
    result.slope += (projection / norm) * slope;
    result.curvature += (projection / norm) * curvature;
    if (k === degree) break;
    const shift = first / norm;
    const back = k === 0 ? 0 : norm / normBefore;
    const next = new Float64Array(count);
    for (let i = 0; i < count; i++) next[i] = (t[i]! - shift) * present[i]! - back * previous[i]!;
    const higher = -shift * curvature + 2 * slope - back * curvatureBefore;
    const steeper = -shift * slope + value - back * slopeBefore;
    const further = -shift * value - back * valueBefore;
    [valueBefore, slopeBefore, curvatureBefore] = [value, slope, curvature];
    [value, slope, curvature] = [further, steeper, higher];
    normBefore = norm;
    previous = present;
    present = next;
  }
  return {
    value: result.value,
    slope: result.slope / halfWidth,
    curvature: result.curvature / halfWidth ** 2,
    valueWeights: { from, weights: combined },
  };
}
