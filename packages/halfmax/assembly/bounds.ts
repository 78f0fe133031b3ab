import { ROW, Stretch } from './layout';

/** Share by which bounds are widened, for rounding. */
const SLACK = 1e-12;

/** Middle and half of the span of each pixel over the draws: pairs of f64. */
export function spanRows(rows: usize, pixels: i32, spans: usize): void {
  let at = rows;
  for (let i = 0; i < pixels; i++) {
    let low = v128.load(at);
    let high = low;
    let low2 = low;
    let high2 = low;
    for (const end = at + ROW; at < end; at += 32) {
      const a = v128.load(at);
      const b = v128.load(at, 16);
      low = f64x2.pmin(low, a);
      high = f64x2.pmax(high, a);
      low2 = f64x2.pmin(low2, b);
      high2 = f64x2.pmax(high2, b);
    }
    const least = lowest(f64x2.pmin(low, low2));
    const most = -lowest(f64x2.neg(f64x2.pmax(high, high2)));
    store<f64>(spans, 0.5 * (most + least));
    store<f64>(spans, 0.5 * (most - least), 8);
    spans += 16;
  }
}

/** The lower lane. */
// @ts-ignore: decorator
@inline
function lowest(pair: v128): f64 {
  return min(f64x2.extract_lane(pair, 0), f64x2.extract_lane(pair, 1));
}

/** Bound of the height at a place over all draws: the middle in lane 0, half of the span in lane 1. */
function boundAt(stretch: Stretch, k: usize, spans: usize): v128 {
  const size = i64x2(-1, 0x7fffffffffffffff);
  const bytes = usize(stretch.window) << 3;
  let weights = stretch.value + k * bytes;
  let from = spans + (load<u32>(stretch.from + (k << 2)) / u32(ROW / 16));
  let sum = f64x2.splat(0);
  for (const end = weights + bytes; weights < end; weights += 8) {
    sum = f64x2.add(sum, f64x2.mul(v128.and(v128.load64_splat(weights), size), v128.load(from)));
    from += 16;
  }
  return sum;
}

/** Whatever the draw, the height at a place is at most this. */
export function atMost(stretch: Stretch, k: usize, spans: usize): f64 {
  const bound = boundAt(stretch, k, spans);
  const middle = f64x2.extract_lane(bound, 0);
  const half = f64x2.extract_lane(bound, 1);
  return middle + half + SLACK * (abs(middle) + half);
}

/** Least of a row. */
export function leastOf(row: usize): f64 {
  let low = v128.load(row);
  for (let at = row; at < row + ROW; at += 16) low = f64x2.pmin(low, v128.load(at));
  return lowest(low);
}
