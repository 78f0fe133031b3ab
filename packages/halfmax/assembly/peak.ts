import { Band, CELL, CELL_SHIFT, FOUR, ROW } from './layout';
import { heightRow, slopeRow } from './weighted';

/** Bytes of what is kept of two draws and a pattern. */
const PAIR: usize = 128;
/** Factor from the last term of a cell to that of t cubed. */
const SHARE = -1.0 / 3;
const CONSTANTS = memory.data<f64>([SHARE], 16);

/**
 * Height and place of the peak of every draw of a batch.
 *
 * @param rows - pixel values
 * @param out - row of heights; the places go into the next
 */
export function readPeaks(band: Band, rows: usize, out: usize): void {
  const top = band.top;
  const n = top.places;
  for (let k = 0; k < n; k++) heightRow(top, k, rows, band.heights + usize(k) * ROW);
  findHighest(band, out);
  let first = 0;
  while (first < n - 1 && !mayBeHighest(band, first, out)) first++;
  let last = n - 1;
  while (last > first && !mayBeHighest(band, last, out)) last--;
  const start = max(first - 1, 0);
  const end = min(last + 1, n - 1);
  for (let k = start; k <= end; k++) slopeRow(top, k, rows, band.slopes + usize(k) * ROW);
  for (let at: usize = 0; at < ROW; at += FOUR) readPeak(band, first, last, at, out + at);
}

/** Writes the highest height of each draw and the number of its place, in bytes of a cell; into `least` what others need. */
function findHighest(band: Band, least: usize): void {
  const n = band.top.places;
  const reach = band.reach;
  for (let at: usize = 0; at < ROW; at += 16) {
    let height = band.heights + at;
    let high = v128.load(height);
    let node = i64x2.splat(0);
    for (let k = 1; k < n; k++) {
      height += ROW;
      const here = v128.load(height);
      node = i32x4.max_s(node, v128.and(f64x2.gt(here, high), i64x2.splat(i64(k) << CELL_SHIFT)));
      high = f64x2.pmax(high, here);
    }
    v128.store(band.high + at, high);
    v128.store(band.high + at, node, ROW);
    const lift = f64x2(
      load<f64>(reach + (usize(i64x2.extract_lane(node, 0)) >> 2)),
      load<f64>(reach + (usize(i64x2.extract_lane(node, 1)) >> 2)),
    );
    // The slack is for rounding.
    const slack = f64x2.mul(f64x2.splat(1e-12), f64x2.abs(high));
    v128.store(least + at, f64x2.sub(f64x2.sub(high, lift), slack));
  }
}

/** Whether a pattern may make a place the highest in any draw. */
function mayBeHighest(band: Band, k: i32, least: usize): bool {
  const lift = v128.load64_splat(band.reach + (usize(k) << 3));
  let height = band.heights + usize(k) * ROW;
  for (const end = height + ROW; height < end; height += 16) {
    if (v128.any_true(f64x2.ge(f64x2.add(v128.load(height), lift), v128.load(least)))) return true;
    least += 16;
  }
  return false;
}

/** Peak of four draws, `at` bytes from the start of a row. */
function readPeak(band: Band, first: i32, last: i32, at: usize, out: usize): void {
  const n = usize(band.top.places);
  const perDraw = (n + 1) << CELL_SHIFT;
  // The cell of place 0 follows the one before the first place.
  const cells = band.cells + CELL;
  const nodes = band.cells + 4 * perDraw;
  const high = band.high + at;
  drawCells(band, first, last, at, perDraw);
  drawCells(band, first, last, at + 16, perDraw);
  plainPeak(band, cells, perDraw, high, out);
  plainPeak(band, cells + 2 * perDraw, perDraw, high + 16, out + 16);
  if (band.patterns === 0) return;
  highest(band, band.heights + at, nodes, first, last);
  thinnedPeak(band, cells, perDraw, nodes, high, out);
  thinnedPeak(band, cells + 2 * perDraw, perDraw, nodes + 16, high + 16, out + 16);
}

/** Writes the cells on both sides of the places `first` to `last`, of two draws, one draw after the other. */
function drawCells(band: Band, first: i32, last: i32, at: usize, perDraw: usize): void {
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

/** Where c1 t + c2 t^2 + c3 t^3, which rises at 0 and falls at 1, turns; d3 is -3 c3. */
// @ts-ignore: decorator
@inline
function turnOf(c1: v128, c2: v128, d3: v128): v128 {
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
function turns(c1: v128, c2: v128, d3: v128): v128 {
  return v128.and(f64x2.gt(c1, f64x2.splat(0)), f64x2.lt(f64x2.add(c1, f64x2.add(c2, c2)), d3));
}

/** c0 + c1 t + c2 t^2 + c3 t^3. */
// @ts-ignore: decorator
@inline
function cubicAt(c0: v128, c1: v128, c2: v128, d3: v128, t: v128, share: v128): v128 {
  const last = f64x2.mul(f64x2.mul(t, share), d3);
  return f64x2.add(c0, f64x2.mul(t, f64x2.add(c1, f64x2.mul(t, f64x2.add(c2, last)))));
}

/** Maximum and place of two draws. */
function plainPeak(band: Band, draw: usize, perDraw: usize, high: usize, out: usize): void {
  const top = band.top;
  const other = draw + perDraw;
  const node0 = usize(load<u32>(high, ROW));
  const node1 = usize(load<u32>(high, ROW + 8));
  const cell0 = node0 - (usize(!(load<f64>(draw + node0, 8) > 0)) << CELL_SHIFT);
  const cell1 = node1 - (usize(!(load<f64>(other + node1, 8) > 0)) << CELL_SHIFT);
  const front0 = v128.load(draw + cell0);
  const front1 = v128.load(other + cell1);
  const back0 = v128.load(draw + cell0, 16);
  const back1 = v128.load(other + cell1, 16);
  const c0 = v128.shuffle<f64>(front0, front1, 0, 2);
  const c1 = v128.shuffle<f64>(front0, front1, 1, 3);
  const c2 = v128.shuffle<f64>(back0, back1, 0, 2);
  const d3 = v128.shuffle<f64>(back0, back1, 1, 3);
  const inside = turns(c1, c2, d3);
  const t = turnOf(c1, c2, d3);
  const height = v128.bitselect(cubicAt(c0, c1, c2, d3, t, f64x2.splat(SHARE)), v128.load(high), inside);
  v128.store(high, height);
  v128.store(out, height);
  const atNode = f64x2(load<f64>(top.atNm + (node0 >> 2)), load<f64>(top.atNm + (node1 >> 2)));
  // Before the first place there is no step, and none is used.
  const step = f64x2(
    load<f64>(top.stepNm + usize(i32(cell0) >> 2)),
    load<f64>(top.stepNm + usize(i32(cell1) >> 2)),
  );
  const back = f64x2(cell0 === node0 ? 0 : -1, cell1 === node1 ? 0 : -1);
  const place = f64x2.add(atNode, f64x2.mul(f64x2.add(back, t), step));
  v128.store(out, v128.bitselect(place, atNode, inside), ROW);
}

/** The highest place with each pattern, of both signs: bytes of its cell. */
function highest(band: Band, heights: usize, nodes: usize, first: i32, last: i32): void {
  const perPattern = usize(band.top.places) << 3;
  const start = heights + usize(first) * ROW;
  const end = heights + usize(last) * ROW;
  let noise = band.noise + (usize(first) << 3);
  for (const stop = noise + usize(band.patterns) * perPattern; noise < stop; noise += perPattern) {
    let aboveA = f64x2.splat(-Infinity);
    let belowA = aboveA;
    let aboveB = aboveA;
    let belowB = aboveA;
    let nodeAboveA = i64x2.splat(0);
    let nodeBelowA = nodeAboveA;
    let nodeAboveB = nodeAboveA;
    let nodeBelowB = nodeAboveA;
    let here = i64x2.splat(i64(first) << CELL_SHIFT);
    let lift = noise;
    for (let at = start; at <= end; at += ROW) {
      const pattern = v128.load64_splat(lift);
      const a = v128.load(at);
      const b = v128.load(at, 16);
      const upA = f64x2.add(a, pattern);
      const downA = f64x2.sub(a, pattern);
      const upB = f64x2.add(b, pattern);
      const downB = f64x2.sub(b, pattern);
      // Later places have larger numbers: the last that was the highest so far has the largest.
      nodeAboveA = i32x4.max_s(nodeAboveA, v128.and(f64x2.gt(upA, aboveA), here));
      nodeBelowA = i32x4.max_s(nodeBelowA, v128.and(f64x2.gt(downA, belowA), here));
      nodeAboveB = i32x4.max_s(nodeAboveB, v128.and(f64x2.gt(upB, aboveB), here));
      nodeBelowB = i32x4.max_s(nodeBelowB, v128.and(f64x2.gt(downB, belowB), here));
      aboveA = f64x2.pmax(aboveA, upA);
      belowA = f64x2.pmax(belowA, downA);
      aboveB = f64x2.pmax(aboveB, upB);
      belowB = f64x2.pmax(belowB, downB);
      here = i64x2.add(here, i64x2.splat(CELL));
      lift += 8;
    }
    v128.store(nodes, nodeAboveA);
    v128.store(nodes, nodeAboveB, 16);
    v128.store(nodes, nodeBelowA, 32);
    v128.store(nodes, nodeBelowB, 48);
    nodes += 64;
  }
}

/** Draws the maximum of two draws towards the mean height where the curve with a pattern is highest. */
function thinnedPeak(band: Band, draw: usize, perDraw: usize, nodes: usize, high: usize, out: usize): void {
  const patterns = usize(band.patterns);
  const other = draw + perDraw;
  const pairs = band.pairs;
  let pattern = band.noiseCells + CELL;
  let pair = pairs;
  for (const end = nodes + (patterns << 6); nodes < end; nodes += 64) {
    pairCells(draw, other, pattern, nodes, true, pair);
    pairCells(draw, other, pattern, nodes + 32, false, pair + PAIR);
    pattern += perDraw;
    pair += 2 * PAIR;
  }
  // From memory: a constant would be made anew for each pair.
  const share = v128.load64_splat(CONSTANTS);
  let sum = f64x2.splat(0);
  for (let at = pairs; at < pair; at += PAIR) sum = f64x2.add(sum, thinned(at, share));
  const maximum = v128.load(high);
  const mean = f64x2.div(sum, f64x2.splat(2 * f64(patterns)));
  const weight = f64x2.splat(band.thinnedWeight);
  v128.store(out, f64x2.add(maximum, f64x2.mul(weight, f64x2.sub(mean, maximum))));
}

/**
 * Writes the cells of two draws where the curve with a pattern is highest: slope, bend and its change with the pattern,
 * and all four terms with the pattern taken away, two lanes each; then where the place itself is in its cell.
 */
// @ts-ignore: decorator
@inline
function pairCells(draw: usize, other: usize, pattern: usize, nodes: usize, plus: bool, to: usize): void {
  const node0 = usize(load<u32>(nodes));
  const node1 = usize(load<u32>(nodes, 8));
  const slope0 = load<f64>(draw + node0, 8);
  const slope1 = load<f64>(other + node1, 8);
  const tilt0 = load<f64>(pattern + node0, 8);
  const tilt1 = load<f64>(pattern + node1, 8);
  const back0 = i32(!((plus ? slope0 + tilt0 : slope0 - tilt0) > 0));
  const back1 = i32(!((plus ? slope1 + tilt1 : slope1 - tilt1) > 0));
  store<i32>(to, back0, 112);
  store<i32>(to, back1, 116);
  const cell0 = node0 - (usize(back0) << CELL_SHIFT);
  const cell1 = node1 - (usize(back1) << CELL_SHIFT);
  const low0 = v128.load(draw + cell0);
  const low1 = v128.load(other + cell1);
  const noiseLow0 = v128.load(pattern + cell0);
  const noiseLow1 = v128.load(pattern + cell1);
  const c0 = v128.shuffle<f64>(low0, low1, 0, 2);
  const c1 = v128.shuffle<f64>(low0, low1, 1, 3);
  const p0 = v128.shuffle<f64>(noiseLow0, noiseLow1, 0, 2);
  const p1 = v128.shuffle<f64>(noiseLow0, noiseLow1, 1, 3);
  v128.store(to, plus ? f64x2.add(c1, p1) : f64x2.sub(c1, p1));
  v128.store(to, plus ? f64x2.sub(c0, p0) : f64x2.add(c0, p0), 48);
  v128.store(to, plus ? f64x2.sub(c1, p1) : f64x2.add(c1, p1), 64);
  const high0 = v128.load(draw + cell0, 16);
  const high1 = v128.load(other + cell1, 16);
  const noiseHigh0 = v128.load(pattern + cell0, 16);
  const noiseHigh1 = v128.load(pattern + cell1, 16);
  const c2 = v128.shuffle<f64>(high0, high1, 0, 2);
  const d3 = v128.shuffle<f64>(high0, high1, 1, 3);
  const p2 = v128.shuffle<f64>(noiseHigh0, noiseHigh1, 0, 2);
  const p3 = v128.shuffle<f64>(noiseHigh0, noiseHigh1, 1, 3);
  v128.store(to, plus ? f64x2.add(c2, p2) : f64x2.sub(c2, p2), 16);
  v128.store(to, plus ? f64x2.add(d3, p3) : f64x2.sub(d3, p3), 32);
  v128.store(to, plus ? f64x2.sub(c2, p2) : f64x2.add(c2, p2), 80);
  v128.store(to, plus ? f64x2.sub(d3, p3) : f64x2.add(d3, p3), 96);
}

/** The height of two draws where the curve with a pattern is highest, the pattern taken away once more. */
// @ts-ignore: decorator
@inline
function thinned(pair: usize, share: v128): v128 {
  const c1 = v128.load(pair);
  const c2 = v128.load(pair, 16);
  const d3 = v128.load(pair, 32);
  let t = turnOf(c1, c2, d3);
  const inside = turns(c1, c2, d3);
  // Elsewhere the place itself, at one end of its cell.
  if (!i64x2.all_true(inside)) t = v128.bitselect(t, f64x2(load<i32>(pair, 112), load<i32>(pair, 116)), inside);
  return cubicAt(v128.load(pair, 48), v128.load(pair, 64), v128.load(pair, 80), v128.load(pair, 96), t, share);
}
