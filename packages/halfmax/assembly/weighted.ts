import { ROW, Stretch } from './layout';

/** Writes a row of smoothed heights: at place `k` of the stretch, for every draw. */
export function heightRow(stretch: Stretch, k: usize, rows: usize, to: usize): void {
  weightedRow(stretch.value, stretch, k, rows, to);
}

/** Writes a row of slopes per nm. */
export function slopeRow(stretch: Stretch, k: usize, rows: usize, to: usize): void {
  weightedRow(stretch.slope, stretch, k, rows, to);
}

/** Sums of a window's weights times pixels: the weights stay where they are while the draws pass. */
function weightedRow(table: usize, stretch: Stretch, k: usize, rows: usize, to: usize): void {
  const window = usize(stretch.window);
  let weights = table + ((k * window) << 3);
  let from = rows + load<u32>(stretch.from + (k << 2));
  let left = window;
  if (left < 8) {
    sumFour(weights, from, to, true);
    return;
  }
  sumEight(weights, from, to, true);
  for (left -= 8; left >= 8; left -= 8) {
    weights += 64;
    from += 8 * ROW;
    sumEight(weights, from, to, false);
  }
  if (left > 0) sumFour(weights + 64, from + 8 * ROW, to, false);
}

// @ts-ignore: decorator
@inline
function sumEight(weights: usize, from: usize, to: usize, fresh: bool): void {
  const w0 = v128.load64_splat(weights);
  const w1 = v128.load64_splat(weights, 8);
  const w2 = v128.load64_splat(weights, 16);
  const w3 = v128.load64_splat(weights, 24);
  const w4 = v128.load64_splat(weights, 32);
  const w5 = v128.load64_splat(weights, 40);
  const w6 = v128.load64_splat(weights, 48);
  const w7 = v128.load64_splat(weights, 56);
  for (const end = to + ROW; to < end; to += 16) {
    let sum = f64x2.mul(w0, v128.load(from));
    if (!fresh) sum = f64x2.add(v128.load(to), sum);
    sum = f64x2.add(sum, f64x2.mul(w1, v128.load(from, ROW)));
    sum = f64x2.add(sum, f64x2.mul(w2, v128.load(from, 2 * ROW)));
    sum = f64x2.add(sum, f64x2.mul(w3, v128.load(from, 3 * ROW)));
    sum = f64x2.add(sum, f64x2.mul(w4, v128.load(from, 4 * ROW)));
    sum = f64x2.add(sum, f64x2.mul(w5, v128.load(from, 5 * ROW)));
    sum = f64x2.add(sum, f64x2.mul(w6, v128.load(from, 6 * ROW)));
    sum = f64x2.add(sum, f64x2.mul(w7, v128.load(from, 7 * ROW)));
    v128.store(to, sum);
    from += 16;
  }
}

// @ts-ignore: decorator
@inline
function sumFour(weights: usize, from: usize, to: usize, fresh: bool): void {
  const w0 = v128.load64_splat(weights);
  const w1 = v128.load64_splat(weights, 8);
  const w2 = v128.load64_splat(weights, 16);
  const w3 = v128.load64_splat(weights, 24);
  for (const end = to + ROW; to < end; to += 16) {
    let sum = f64x2.mul(w0, v128.load(from));
    if (!fresh) sum = f64x2.add(v128.load(to), sum);
    sum = f64x2.add(sum, f64x2.mul(w1, v128.load(from, ROW)));
    sum = f64x2.add(sum, f64x2.mul(w2, v128.load(from, 2 * ROW)));
    sum = f64x2.add(sum, f64x2.mul(w3, v128.load(from, 3 * ROW)));
    v128.store(to, sum);
    from += 16;
  }
}
