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
 * Source: a row meets edges and sectors in a known order, which needs a root for each edge, nothing for a pixel; own.
 */
export function rowCells(
  centre: Place,
  edges: Float64Array,
  sectors: number,
  left: number,
): (y: number, out: Int32Array) => void {
  const rings = edges.length - 1;
  const squares = edges.map((edge) => edge * edge);
  const below = sectorsAlong(sectors, 1);
  const above = sectorsAlong(sectors, -1);
  const middle = centre.x - left;
  const turns = new Int32Array(sectors);
  return (y, out) => {
    const end = out.length;
    const dy = y - centre.y;
    const { slopes, met } = dy > 0 ? below : dy < 0 ? above : centreRow(sectors);
    for (let k = 0; k < slopes.length; k++) turns[k] = Math.max(0, Math.ceil(middle + dy * slopes[k]!));
    turns[slopes.length] = end;
    let at = 0;
    let turn = 0;
    /** Fills up to a pixel with a ring, sector by sector. */
    const fill = (stop: number, ring: number): void => {
      while (at < stop) {
        while (turns[turn]! <= at) turn++;
        const cell = ring * sectors + met[turn]!;
        for (const until = Math.min(stop, turns[turn]!); at < until; at++) out[at] = cell;
      }
    };
    const half = (edge: number): number => Math.sqrt(squares[edge]! - dy * dy);
    let ring = rings;
    // Inwards: a pixel on an edge belongs to the ring beyond it.
    for (; ring >= 0 && squares[ring]! > dy * dy; ring--) {
      const begin = Math.max(0, Math.min(end, Math.floor(middle - half(ring)) + 1));
      if (ring === rings) {
        out.fill(-1, 0, begin);
        at = begin;
      } else fill(begin, ring);
    }
    // Outwards again, from the innermost ring that the row meets.
    for (ring++; ring <= rings; ring++) {
      fill(Math.max(at, Math.min(end, Math.ceil(middle + half(ring)))), ring - 1);
    }
    out.fill(-1, at);
  };
}

/** Sectors that a row meets from left to right, and where each but the first begins: along x over the row's dy. */
interface SectorsAlong {
  readonly slopes: Float64Array;
  readonly met: Int32Array;
}

/** On the row through the centre the sector changes at the centre alone. */
function centreRow(sectors: number): SectorsAlong {
  return { slopes: Float64Array.of(0), met: Int32Array.of(sectors >> 1, 0) };
}

/** Of rows on one side of the centre: dy of that sign. */
function sectorsAlong(sectors: number, sign: 1 | -1): SectorsAlong {
  const slopes: number[] = [];
  const met: number[] = [];
  for (let s = 0; s < sectors; s++) {
    const begin = (s * 2 * Math.PI) / sectors;
    const end = ((s + 1) * 2 * Math.PI) / sectors;
    const from = sign > 0 ? 0 : Math.PI;
    if (end > from + 1e-12 && begin < from + Math.PI - 1e-12) met.push(s);
    if (begin > from + 1e-12 && begin < from + Math.PI - 1e-12) slopes.push(1 / Math.tan(begin));
  }
  // With dy above 0 the angle falls from left to right, with dy below 0 it rises.
  if (sign > 0) {
    met.reverse();
    slopes.reverse();
  }
  return { slopes: Float64Array.from(slopes), met: Int32Array.from(met) };
}
