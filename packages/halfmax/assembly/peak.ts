import { drawCells } from './cells';
import { cubicAt, SHARE, turnOf, turns } from './cubic';
import { findHighest, highest, mayBeHighest } from './highest';
import { Band, CELL, CELL_SHIFT, FOUR, ROW } from './layout';
import { thinnedPeak } from './thinned';
import { heightRow, slopeRow } from './weighted';

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
