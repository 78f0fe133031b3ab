/** Products of columns of a ring's cells: numbers of a column lie side by side, columns `stride` bytes apart. */

/** Adds the products of one column with `count` columns to a row. */
export function addProducts(one: usize, columns: usize, count: usize, to: usize, stride: usize): void {
  let b: usize = 0;
  for (; b + 4 <= count; b += 4) {
    const place = to + (b << 3);
    fourProducts(one, columns + b * stride, stride, place, place + 8, place + 16, place + 24);
  }
  for (; b < count; b++) add(to + (b << 3), product(one, columns + b * stride, stride));
}

/** The same where the places in the row are told. */
export function addProductsAt(
  one: usize,
  columns: usize,
  count: usize,
  to: usize,
  places: usize,
  stride: usize,
): void {
  let l: usize = 0;
  for (; l + 4 <= count; l += 4) {
    const at = columns + l * stride;
    const t = places + (l << 2);
    fourProducts(one, at, stride, placeIn(to, t), placeIn(to, t + 4), placeIn(to, t + 8), placeIn(to, t + 12));
  }
  for (; l < count; l++) add(placeIn(to, places + (l << 2)), product(one, columns + l * stride, stride));
}

// @ts-ignore: decorator
@inline
function placeIn(row: usize, touched: usize): usize {
  return row + (usize(load<i32>(touched)) << 3);
}

/** Products of a column with four that lie side by side. */
function fourProducts(one: usize, at: usize, stride: usize, a: usize, b: usize, c: usize, d: usize): void {
  let first = f64x2.splat(0);
  let second = f64x2.splat(0);
  let third = f64x2.splat(0);
  let fourth = f64x2.splat(0);
  const at2 = at + stride;
  const at3 = at2 + stride;
  const at4 = at3 + stride;
  for (let k: usize = 0; k < stride; k += 16) {
    const value = v128.load(one + k);
    first = f64x2.add(first, f64x2.mul(value, v128.load(at + k)));
    second = f64x2.add(second, f64x2.mul(value, v128.load(at2 + k)));
    third = f64x2.add(third, f64x2.mul(value, v128.load(at3 + k)));
    fourth = f64x2.add(fourth, f64x2.mul(value, v128.load(at4 + k)));
  }
  add(a, both(first));
  add(b, both(second));
  add(c, both(third));
  add(d, both(fourth));
}

export function product(one: usize, other: usize, stride: usize): f64 {
  let sum = f64x2.splat(0);
  for (let k: usize = 0; k < stride; k += 16)
    sum = f64x2.add(sum, f64x2.mul(v128.load(one + k), v128.load(other + k)));
  return both(sum);
}

// @ts-ignore: decorator
@inline
export function both(sum: v128): f64 {
  return f64x2.extract_lane(sum, 0) + f64x2.extract_lane(sum, 1);
}

// @ts-ignore: decorator
@inline
export function add(at: usize, value: f64): void {
  store<f64>(at, load<f64>(at) + value);
}

/** Sum of a column. */
export function total(one: usize, stride: usize): f64 {
  let sum = f64x2.splat(0);
  for (let k: usize = 0; k < stride; k += 16) sum = f64x2.add(sum, v128.load(one + k));
  return both(sum);
}

/** Writes the product of two columns, number by number. */
export function multiplyColumns(one: usize, other: usize, to: usize, stride: usize): void {
  for (let k: usize = 0; k < stride; k += 16)
    v128.store(to + k, f64x2.mul(v128.load(one + k), v128.load(other + k)));
}

/** Takes columns, each times its factor, off another one. */
export function takeOff(left: usize, columns: usize, count: usize, factors: usize, stride: usize): void {
  const end = columns + count * stride;
  for (let k: usize = 0; k < stride; k += 16) {
    let value = v128.load(left + k);
    let factor = factors;
    for (let at = columns + k; at < end; at += stride) {
      value = f64x2.sub(value, f64x2.mul(v128.load64_splat(factor), v128.load(at)));
      factor += 8;
    }
    v128.store(left + k, value);
  }
}
