/** Abscissae on -1 to 1 and their weights. */
export interface QuadratureRule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/**
 * Gauss-Legendre rule of `n` points: exact for polynomials up to degree 2n - 1.
 *
 * @param n - whole number, 1 or more
 * @returns nodes and weights; the weights add up to 2
 * @throws {RangeError} n not a whole number above 0
 *
 * Source: Abramowitz and Stegun, 25.4.29; the roots by Newton's method from the start cos(pi (i + 3/4) / (n + 1/2)).
 */
export function gaussLegendre(n: number): QuadratureRule {
  if (!(Number.isInteger(n) && n > 0))
    throw new RangeError(`gaussLegendre requires n a whole number > 0, got ${n}`);
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 20; step++) {
      let before = 1;
      let value = x;
      for (let k = 2; k <= n; k++)
        [before, value] = [value, ((2 * k - 1) * x * value - (k - 1) * before) / k];
      slope = (n * (x * value - before)) / (x * x - 1);
      const change = value / slope;
      x -= change;
      if (Math.abs(change) < 1e-15) break;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  return { nodes, weights };
}

/**
 * Integral of a smooth function over a row of panels.
 *
 * @param f - smooth within each panel; kinks belong at the ends of panels
 * @param edges - ends of the panels, ascending, two or more
 * @param rule - quadrature rule used on each panel
 * @returns integral, in the unit of f times that of the edges
 */
export function integrate(f: (x: number) => number, edges: ArrayLike<number>, rule: QuadratureRule): number {
  let total = 0;
  for (let i = 1; i < edges.length; i++) {
    const middle = (edges[i]! + edges[i - 1]!) / 2;
    const half = (edges[i]! - edges[i - 1]!) / 2;
    let sum = 0;
    for (let k = 0; k < rule.nodes.length; k++) sum += rule.weights[k]! * f(middle + half * rule.nodes[k]!);
    total += half * sum;
  }
  return total;
}
