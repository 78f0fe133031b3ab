import { Band, CELL, CELL_SHIFT, ROW } from './layout';

/** Writes the highest height of each draw and the number of its place, in bytes of a cell; into `least` what others need. */
export function findHighest(band: Band, least: usize): void {
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
export function mayBeHighest(band: Band, k: i32, least: usize): bool {
  const lift = v128.load64_splat(band.reach + (usize(k) << 3));
  let height = band.heights + usize(k) * ROW;
  for (const end = height + ROW; height < end; height += 16) {
    if (v128.any_true(f64x2.ge(f64x2.add(v128.load(height), lift), v128.load(least)))) return true;
    least += 16;
  }
  return false;
}

/** The highest place with each pattern, of both signs: bytes of its cell. */
export function highest(band: Band, heights: usize, nodes: usize, first: i32, last: i32): void {
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
