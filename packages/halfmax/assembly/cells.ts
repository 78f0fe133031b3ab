import { Band, CELL_SHIFT, ROW } from './layout';

/** Writes the cells on both sides of the places `first` to `last`, of two draws, one draw after the other. */
export function drawCells(band: Band, first: i32, last: i32, at: usize, perDraw: usize): void {
  const top = band.top;
  const end = top.places - 1;
  const none = f64x2.splat(0);
  const cells = band.cells + (at & 16 ? 2 * perDraw : 0);
  const heights = band.heights + at;
  const slopes = band.slopes + at;
  // Outside the first and the last place is nothing that a maximum could lie in.
  if (first === 0) storeCell(cells, perDraw, v128.load(heights), none, none, none);
  if (last === end) {
    const slope = v128.load(slopes + usize(end) * ROW);
    const step = v128.load64_splat(top.stepNm + (usize(end) << 3));
    const to = cells + (usize(end + 1) << CELL_SHIFT);
    storeCell(to, perDraw, v128.load(heights + usize(end) * ROW), f64x2.mul(slope, step), none, none);
  }
  const start = max(first - 1, 0);
  const stop = min(last + 1, end);
  let left = v128.load(heights + usize(start) * ROW);
  let before = v128.load(slopes + usize(start) * ROW);
  for (let k = start + 1; k <= stop; k++) {
    const right = v128.load(heights + usize(k) * ROW);
    const after = v128.load(slopes + usize(k) * ROW);
    const step = v128.load64_splat(top.stepNm + (usize(k - 1) << 3));
    storeCubic(cells + (usize(k) << CELL_SHIFT), perDraw, left, right, before, after, step);
    left = right;
    before = after;
  }
}

/** Stores the cubic through a and b with the slopes before and after, `step` apart. */
// @ts-ignore: decorator
@inline
function storeCubic(at: usize, perDraw: usize, a: v128, b: v128, before: v128, after: v128, step: v128): void {
  const da = f64x2.mul(before, step);
  const db = f64x2.mul(after, step);
  const three = f64x2.splat(3);
  const rise = f64x2.sub(b, a);
  const c2 = f64x2.sub(f64x2.sub(f64x2.mul(three, rise), f64x2.add(da, da)), db);
  const less3 = f64x2.sub(f64x2.add(rise, rise), f64x2.add(da, db));
  storeCell(at, perDraw, a, da, c2, f64x2.mul(three, less3));
}

// @ts-ignore: decorator
@inline
function storeCell(at: usize, perDraw: usize, c0: v128, c1: v128, c2: v128, c3: v128): void {
  v128.store(at, v128.shuffle<f64>(c0, c1, 0, 2));
  v128.store(at, v128.shuffle<f64>(c2, c3, 0, 2), 16);
  v128.store(at + perDraw, v128.shuffle<f64>(c0, c1, 1, 3));
  v128.store(at + perDraw, v128.shuffle<f64>(c2, c3, 1, 3), 16);
}
