/** The numbers of `src/halo/diskShape.ts`, where the law of an edge is told. */
export const EDGE_REACH: f64 = 10;
const ROOT_TWO_PI: f64 = 2.5066282746310002;
const HEIGHT: f64 = 15.0 / 16;
export const WIDTH: f64 = HEIGHT * ROOT_TWO_PI;

/** Square of how near an edge is, so many widths from it: 1 on it, 0 far off. */
// @ts-ignore: decorator
@inline
export function nearness(u: v128): v128 {
  const one = f64x2.splat(1);
  return f64x2.div(one, f64x2.add(one, f64x2.mul(u, u)));
}

/** All bits where an edge is within reach, so many standard deviations from it. */
// @ts-ignore: decorator
@inline
export function isReached(t: v128): v128 {
  return f64x2.le(f64x2.abs(t), f64x2.splat(EDGE_REACH));
}

/** Density of light across an edge. */
// @ts-ignore: decorator
@inline
export function densityOf(square: v128, root: v128, reached: v128): v128 {
  const cube = f64x2.mul(f64x2.mul(square, square), square);
  return v128.and(reached, f64x2.mul(f64x2.mul(cube, root), f64x2.splat(1 / ROOT_TWO_PI)));
}

/** Share of the light within an edge. */
// @ts-ignore: decorator
@inline
export function shareOf(u: v128, root: v128, reached: v128): v128 {
  const one = f64x2.splat(1);
  const sine = f64x2.mul(u, root);
  const squared = f64x2.mul(sine, sine);
  const bend = f64x2.sub(f64x2.splat(2.0 / 3), f64x2.mul(squared, f64x2.splat(0.2)));
  const share = f64x2.add(
    f64x2.splat(0.5),
    f64x2.mul(f64x2.mul(f64x2.splat(HEIGHT), sine), f64x2.sub(one, f64x2.mul(squared, bend))),
  );
  const far = v128.and(f64x2.gt(u, f64x2.splat(0)), one);
  return v128.bitselect(share, far, reached);
}
