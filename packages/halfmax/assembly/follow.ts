/** Columns of numbers that parameters follow, trials side by side: rows `width` numbers long. */
@unmanaged
export class Followed {
  /** Numbers that are followed: rows in. */
  rows: i32;
  /** Parameters in groups of four, the last group filled up: rows out. */
  groups: i32;
  /** Bytes from a row to the next. */
  stride: usize;
  /** Rows in, rows out. */
  from: usize;
  to: usize;
}

/**
 * Parameters that follow numbers to first order, for some of the trials.
 *
 * @param table - rows
 * @param fitted - parameters where nothing has changed, filled up
 * @param factors - of each group of parameters for each row: four numbers side by side
 * @param first - first trial, even
 * @param end - after the last one; a trial more is worked out where they are odd in number
 */
export function followRows(table: Followed, fitted: usize, factors: usize, first: usize, end: usize): void {
  const rows = usize(table.rows);
  const stride = table.stride;
  for (let group: usize = 0; group < usize(table.groups); group++) {
    const by = factors + group * rows * 32;
    const start = fitted + group * 32;
    const to = table.to + group * 4 * stride;
    let k = first << 3;
    for (; k + 16 < end << 3; k += 32) fourTrials(table.from + k, rows, stride, by, start, to + k);
    for (; k < end << 3; k += 16) twoTrials(table.from + k, rows, stride, by, start, to + k);
  }
}

// @ts-ignore: decorator
@inline
function fourTrials(from: usize, rows: usize, stride: usize, by: usize, start: usize, to: usize): void {
  let a = v128.load64_splat(start);
  let b = v128.load64_splat(start, 8);
  let c = v128.load64_splat(start, 16);
  let d = v128.load64_splat(start, 24);
  let e = a;
  let f = b;
  let g = c;
  let h = d;
  let at = from;
  for (const end = by + rows * 32; by < end; by += 32) {
    const one = v128.load(at);
    const two = v128.load(at, 16);
    const first = v128.load64_splat(by);
    a = f64x2.add(a, f64x2.mul(first, one));
    e = f64x2.add(e, f64x2.mul(first, two));
    const second = v128.load64_splat(by, 8);
    b = f64x2.add(b, f64x2.mul(second, one));
    f = f64x2.add(f, f64x2.mul(second, two));
    const third = v128.load64_splat(by, 16);
    c = f64x2.add(c, f64x2.mul(third, one));
    g = f64x2.add(g, f64x2.mul(third, two));
    const fourth = v128.load64_splat(by, 24);
    d = f64x2.add(d, f64x2.mul(fourth, one));
    h = f64x2.add(h, f64x2.mul(fourth, two));
    at += stride;
  }
  v128.store(to, a);
  v128.store(to, e, 16);
  v128.store(to + stride, b);
  v128.store(to + stride, f, 16);
  v128.store(to + 2 * stride, c);
  v128.store(to + 2 * stride, g, 16);
  v128.store(to + 3 * stride, d);
  v128.store(to + 3 * stride, h, 16);
}

// @ts-ignore: decorator
@inline
function twoTrials(from: usize, rows: usize, stride: usize, by: usize, start: usize, to: usize): void {
  let a = v128.load64_splat(start);
  let b = v128.load64_splat(start, 8);
  let c = v128.load64_splat(start, 16);
  let d = v128.load64_splat(start, 24);
  let at = from;
  for (const end = by + rows * 32; by < end; by += 32) {
    const one = v128.load(at);
    a = f64x2.add(a, f64x2.mul(v128.load64_splat(by), one));
    b = f64x2.add(b, f64x2.mul(v128.load64_splat(by, 8), one));
    c = f64x2.add(c, f64x2.mul(v128.load64_splat(by, 16), one));
    d = f64x2.add(d, f64x2.mul(v128.load64_splat(by, 24), one));
    at += stride;
  }
  v128.store(to, a);
  v128.store(to + stride, b);
  v128.store(to + 2 * stride, c);
  v128.store(to + 3 * stride, d);
}
