/** Balances the rounding of the model against the third derivative that a central difference leaves out. */
const RELATIVE_STEP = Math.cbrt(Number.EPSILON);

/**
 * Makes a function that fills in the derivatives of a model by central differences, kept within bounds.
 *
 * @param model - fills `out` (length n) with the values at `parameters`
 * @param n - number of values
 * @param p - number of parameters
 * @param lower - least value of each parameter, length p
 * @param upper - greatest value of each parameter, length p
 * @param size - typical size of each parameter, length p, read at each call; 0 counts as 1
 * @returns a function of the parameters and of the n rows of p, one after the other, to fill
 *
 * Source: Dennis, Schnabel, Numerical Methods for Unconstrained Optimization (1983), section 5.4. Cost: 2 p models.
 */
export function centralJacobian(
  model: (parameters: Float64Array, out: Float64Array) => void,
  n: number,
  p: number,
  lower: ArrayLike<number>,
  upper: ArrayLike<number>,
  size: ArrayLike<number>,
): (parameters: Float64Array, flat: Float64Array) => void {
  const moved = new Float64Array(p);
  const above = new Float64Array(n);
  const below = new Float64Array(n);
  return (parameters, flat) => {
    moved.set(parameters);
    for (let a = 0; a < p; a++) {
      const centre = parameters[a]!;
      const step = RELATIVE_STEP * (Math.abs(centre) || size[a]! || 1);
      const high = Math.min(upper[a]!, centre + step);
      const low = Math.max(lower[a]!, centre - step);
      moved[a] = high;
      model(moved, above);
      moved[a] = low;
      model(moved, below);
      moved[a] = centre;
      const width = high - low;
      for (let i = 0; i < n; i++) flat[i * p + a] = (above[i]! - below[i]!) / width;
    }
  };
}
