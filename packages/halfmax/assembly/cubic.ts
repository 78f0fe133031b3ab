/** Cubics of two draws; a cell keeps the last term as d3 = -3 c3. */

/** Factor from the last term of a cell to that of t cubed. */
export const SHARE = -1.0 / 3;

/** Where c1 t + c2 t^2 + c3 t^3, which rises at 0 and falls at 1, turns; d3 is -3 c3. */
// @ts-ignore: decorator
@inline
export function turnOf(c1: v128, c2: v128, d3: v128): v128 {
  const none = f64x2.splat(0);
  const root = f64x2.sqrt(f64x2.pmax(none, f64x2.add(f64x2.mul(c2, c2), f64x2.mul(c1, d3))));
  // Of the two forms of the solution the one that takes no difference of like numbers.
  const falls = f64x2.le(c2, none);
  const sum = f64x2.add(root, f64x2.abs(c2));
  return f64x2.div(v128.bitselect(c1, sum, falls), v128.bitselect(sum, d3, falls));
}

/** Whether c1 t + c2 t^2 + c3 t^3 rises at 0 and falls at 1. */
// @ts-ignore: decorator
@inline
export function turns(c1: v128, c2: v128, d3: v128): v128 {
  return v128.and(f64x2.gt(c1, f64x2.splat(0)), f64x2.lt(f64x2.add(c1, f64x2.add(c2, c2)), d3));
}

/** c0 + c1 t + c2 t^2 + c3 t^3. */
// @ts-ignore: decorator
@inline
export function cubicAt(c0: v128, c1: v128, c2: v128, d3: v128, t: v128, share: v128): v128 {
  const last = f64x2.mul(f64x2.mul(t, share), d3);
  return f64x2.add(c0, f64x2.mul(t, f64x2.add(c1, f64x2.mul(t, f64x2.add(c2, last)))));
}
