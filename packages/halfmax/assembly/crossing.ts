import { ROW, Stretch } from './layout';
import { atMost } from './bounds';
import { heightRow, slopeRow } from './weighted';

/** Least step of Newton's method, share of a cell. */
const LEAST_STEP = 1e-5;
const MOST_STEPS = 60;

/**
 * Outermost crossing of half of the peak on one side, of every draw of a batch; NaN where there is none.
 *
 * @param level - half of the least peak of the batch
 * @param heights - room for as many rows as the stretch has places
 * @param slopes - the same
 * @param cells - room for a row
 * @param peaks - row of heights of the peak
 * @param out - row of places in nm
 */
export function readCrossings(
  stretch: Stretch,
  rising: bool,
  rows: usize,
  spans: usize,
  level: f64,
  heights: usize,
  slopes: usize,
  cells: usize,
  peaks: usize,
  out: usize,
): void {
  const n = stretch.places;
  for (let at = cells; at < cells + ROW; at += 16) v128.store(at, i64x2.splat(-1));
  // From the outside to the inside: first and last step at which a draw crosses.
  let first = 0;
  let last = -1;
  for (let j = sureBelow(stretch, spans, level, rising), start = j, open = true; j < n && open; j++) {
    const k = rising ? j : n - 1 - j;
    heightRow(stretch, k, rows, heights + usize(k) * ROW);
    if (j === start) continue;
    const cell = rising ? k - 1 : k;
    const outer = heights + usize(rising ? k - 1 : k + 1) * ROW;
    const crossed = cross(outer, heights + usize(k) * ROW, peaks, cells, cell);
    if (crossed & 1) {
      if (last < 0) first = cell;
      last = cell;
    }
    open = (crossed & 2) !== 0;
  }
  if (last < 0) {
    for (let at = out; at < out + ROW; at += 16) v128.store(at, f64x2.splat(NaN));
    return;
  }
  const end = max(first, last) + 1;
  for (let k = min(first, last); k <= end; k++) slopeRow(stretch, k, rows, slopes + usize(k) * ROW);
  for (let at: usize = 0; at < ROW; at += 16) {
    roots(stretch, rising, heights + at, slopes + at, cells + at, peaks + at, out + at);
  }
}

/** How many places from the outside are below every draw's level, less one. */
function sureBelow(stretch: Stretch, spans: usize, level: f64, rising: bool): i32 {
  const n = stretch.places;
  let j = 0;
  while (j < n && atMost(stretch, rising ? j : n - 1 - j, spans) < level) j++;
  return max(j - 1, 0);
}

/** Writes the cell of draws that cross in it and have not before; returns 1 where there are such, 2 where draws are left. */
function cross(outer: usize, inner: usize, peaks: usize, cells: usize, cell: i32): i32 {
  const here = i64x2.splat(i64(cell));
  const none = i64x2.splat(0);
  let crossed = none;
  let left = none;
  for (const end = cells + ROW; cells < end; cells += 16) {
    const level = f64x2.mul(v128.load(peaks), f64x2.splat(0.5));
    const before = v128.load(cells);
    const fresh = v128.and(
      v128.and(f64x2.lt(v128.load(outer), level), f64x2.ge(v128.load(inner), level)),
      i64x2.lt_s(before, none),
    );
    const after = v128.bitselect(here, before, fresh);
    v128.store(cells, after);
    crossed = v128.or(crossed, fresh);
    left = v128.or(left, i64x2.lt_s(after, none));
    outer += 16;
    inner += 16;
    peaks += 16;
  }
  return i32(v128.any_true(crossed)) | (i32(v128.any_true(left)) << 1);
}

/** Place at which the cubic of a cell crosses the level, of two draws: Newton's method, kept between bounds. */
function roots(
  stretch: Stretch,
  rising: bool,
  heights: usize,
  slopes: usize,
  cells: usize,
  peaks: usize,
  out: usize,
): void {
  const none = f64x2.splat(0);
  const cell = v128.load(cells);
  const found = i64x2.ge_s(cell, none);
  // A draw without a crossing takes any cell.
  const cell0 = usize(max(i64x2.extract_lane(cell, 0), 0));
  const cell1 = usize(max(i64x2.extract_lane(cell, 1), 0));
  const at0 = cell0 * ROW;
  const at1 = cell1 * ROW + 8;
  const step = f64x2(
    load<f64>(stretch.stepNm + (cell0 << 3)),
    load<f64>(stretch.stepNm + (cell1 << 3)),
  );
  const start = f64x2(load<f64>(stretch.atNm + (cell0 << 3)), load<f64>(stretch.atNm + (cell1 << 3)));
  const left = f64x2(load<f64>(heights + at0), load<f64>(heights + at1));
  const right = f64x2(load<f64>(heights + at0, ROW), load<f64>(heights + at1, ROW));
  const before = f64x2(load<f64>(slopes + at0), load<f64>(slopes + at1));
  const after = f64x2(load<f64>(slopes + at0, ROW), load<f64>(slopes + at1, ROW));
  const level = f64x2.mul(v128.load(peaks), f64x2.splat(0.5));
  const rise = f64x2.sub(right, left);
  const da = f64x2.mul(before, step);
  const db = f64x2.mul(after, step);
  // The cubic through both heights and slopes, less the level: c0 + da t + c2 t^2 + c3 t^3.
  const c0 = f64x2.sub(left, level);
  const c2 = f64x2.sub(f64x2.sub(f64x2.mul(f64x2.splat(3), rise), f64x2.add(da, da)), db);
  const c3 = f64x2.sub(f64x2.add(da, db), f64x2.add(rise, rise));
  const twice2 = f64x2.add(c2, c2);
  const thrice3 = f64x2.mul(f64x2.splat(3), c3);
  const sign = f64x2.splat(rising ? 0.0 : -0.0);
  let low = none;
  let high = f64x2.splat(1);
  let t = f64x2.div(f64x2.neg(c0), rise);
  let active = found;
  for (let i = 0; i < MOST_STEPS && v128.any_true(active); i++) {
    const miss = f64x2.add(c0, f64x2.mul(t, f64x2.add(da, f64x2.mul(t, f64x2.add(c2, f64x2.mul(t, c3))))));
    active = v128.and(active, f64x2.ne(miss, none));
    const below = f64x2.lt(v128.xor(miss, sign), none);
    low = v128.bitselect(t, low, below);
    high = v128.bitselect(high, t, below);
    const incline = f64x2.add(da, f64x2.mul(t, f64x2.add(twice2, f64x2.mul(t, thrice3))));
    const newton = f64x2.sub(t, f64x2.div(miss, incline));
    const between = v128.and(f64x2.gt(newton, low), f64x2.lt(newton, high));
    const halfway = f64x2.mul(f64x2.add(low, high), f64x2.splat(0.5));
    const next = v128.bitselect(newton, halfway, between);
    const moved = f64x2.abs(f64x2.sub(next, t));
    t = v128.bitselect(next, t, active);
    // The last step is as good as its square.
    active = v128.andnot(active, f64x2.lt(moved, f64x2.splat(LEAST_STEP)));
  }
  v128.store(out, v128.bitselect(f64x2.add(start, f64x2.mul(t, step)), f64x2.splat(NaN), found));
}
