import { cubicAt, SHARE, turnOf, turns } from './cubic';
import { Band, CELL, CELL_SHIFT } from './layout';

/** Bytes of what is kept of two draws and a pattern. */
const PAIR: usize = 128;
const CONSTANTS = memory.data<f64>([SHARE], 16);

/** Draws the maximum of two draws towards the mean height where the curve with a pattern is highest. */
export function thinnedPeak(band: Band, draw: usize, perDraw: usize, nodes: usize, high: usize, out: usize): void {
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
