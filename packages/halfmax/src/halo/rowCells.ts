import type { Place } from './starImage.js';

/**
 * Tells the cells of the pixels of a row: of ring i and sector s i x sectors + s, -1 outside the last ring.
 *
 * @param centre - of the rings, in pixels of the image
 * @param edges - ring edges, pixels, increasing from 0
 * @param sectors - number of sectors, the first begins at angle 0 (+x) and runs towards +y
 * @param left - first pixel of the row
 * @returns fills `out` from that pixel on with the cells of the row at y
 *
 * Source: ring and sector change step by step along a row, which needs no arc tangent for each pixel; own.
 */
export function rowCells(
  centre: Place,
  edges: Float64Array,
  sectors: number,
  left: number,
): (y: number, out: Int32Array) => void {
  const rings = edges.length - 1;
  const squares = edges.map((edge) => edge * edge);
  const limit = squares[rings]!;
  const boundaries = Float64Array.from({ length: sectors + 1 }, (_, s) => (s * 2 * Math.PI) / sectors);
  return (y, out) => {
    const dy = y - centre.y;
    const { from, sector } = rowCrossings(dy, boundaries);
    let next = 0;
    let ring = rings - 1;
    let below = Number.POSITIVE_INFINITY;
    let above = Number.POSITIVE_INFINITY;
    let turn = Number.POSITIVE_INFINITY;
    let cell = 0;
    for (let i = 0; i < out.length; i++) {
      const dx = left + i - centre.x;
      const square = dx * dx + dy * dy;
      if (square >= limit) {
        out[i] = -1;
        continue;
      }
      if (square < below || square >= above || dx >= turn) {
        while (square < squares[ring]!) ring--;
        while (square >= squares[ring + 1]!) ring++;
        below = squares[ring]!;
        above = squares[ring + 1]!;
        while (next < from.length && dx >= from[next]!) next++;
        turn = next < from.length ? from[next]! : Number.POSITIVE_INFINITY;
        cell = ring * sectors + sector[next]!;
      }
      out[i] = cell;
    }
  };
}

/** Sectors met along a row, left to right, and the place along it where each but the first begins. */
function rowCrossings(dy: number, boundaries: Float64Array): { from: Float64Array; sector: Int32Array } {
  const sectors = boundaries.length - 1;
  const sectorOf = (angle: number): number => {
    const turned = angle < 0 ? angle + 2 * Math.PI : angle;
    return Math.min(sectors - 1, Math.floor((turned * sectors) / (2 * Math.PI)));
  };
  // On the row through the centre the sector changes at the centre alone.
  if (dy === 0) return { from: Float64Array.of(0), sector: Int32Array.of(sectorOf(Math.PI), 0) };
  const from: number[] = [];
  for (let s = 0; s <= sectors; s++) {
    const angle = boundaries[s]!;
    if (
      dy > 0
        ? angle > 1e-12 && angle < Math.PI - 1e-12
        : angle > Math.PI + 1e-12 && angle < 2 * Math.PI - 1e-12
    )
      from.push(dy / Math.tan(angle));
  }
  from.sort((a, b) => a - b);
  const middles = [...from, Number.POSITIVE_INFINITY].map((end, k) => {
    const begin = k === 0 ? Number.NEGATIVE_INFINITY : from[k - 1]!;
    if (begin === Number.NEGATIVE_INFINITY) return end === Number.POSITIVE_INFINITY ? 0 : end - Math.abs(dy);
    return end === Number.POSITIVE_INFINITY ? begin + Math.abs(dy) : (begin + end) / 2;
  });
  return {
    from: Float64Array.from(from),
    sector: Int32Array.from(middles, (dx) => sectorOf(Math.atan2(dy, dx))),
  };
}
