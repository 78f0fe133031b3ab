import { normalQuantile } from '../numeric/index.js';
import { selectOrder } from './selectOrder.js';
import type { Place, StarImage } from './starImage.js';

/** An image in rings and sectors about a place. Cell of ring i and sector s: index i x sectors + s. */
export interface PolarGrid {
  readonly centre: Place;
  /** Ring edges, pixels, length rings + 1. */
  readonly edges: Float64Array;
  readonly rings: number;
  readonly sectors: number;
  /** Mean of the middle half of the pixels of each cell, counts; NaN where it has none. */
  readonly counts: Float64Array;
  /** Median of each cell, counts; NaN where it has none. */
  readonly medians: Float64Array;
  /** Quartile distance of each cell as a standard deviation, counts; NaN below 4 pixels. */
  readonly spread: Float64Array;
  /** Pixels used in each cell. */
  readonly pixels: Int32Array;
  /** Pixels that each cell has, masked or not, in the image. */
  readonly pixelsInImage: Int32Array;
  /** Mean distance of the pixels used from the centre, pixels. */
  readonly radius: Float64Array;
  /** Cell of every pixel of the box from `boxX`, `boxY`, `boxWidth` wide; -1 outside the rings. */
  readonly cellOf: Int32Array;
  readonly boxX: number;
  readonly boxY: number;
  readonly boxWidth: number;
  readonly boxHeight: number;
}

/**
 * Mean distance of the two values between which the middle half of n standard normal values lies.
 *
 * Source: expected order statistics by Blom, Statistical Estimates and Transformed Beta-Variables (1958).
 */
function middleHalfWidth(n: number): number {
  return -2 * normalQuantile(((n >> 2) + 0.625) / (n + 0.25));
}

/**
 * Sorts the pixels about a star into rings and sectors and takes a robust mean of each cell.
 *
 * @param image - the picture
 * @param mask - 0 where a pixel may be used, length as the image's counts
 * @param centre - of the rings, in pixels of the image
 * @param edges - ring edges, pixels, increasing from 0
 * @param sectors - number of sectors, the first begins at angle 0 (+x) and runs towards +y
 * @returns cells and the cell of each pixel
 * @throws {RangeError} a mask of another length, fewer than 4 sectors
 *
 * Cost: O(pixels within the last ring).
 */
export function polarGrid(
  image: StarImage,
  mask: Uint8Array,
  centre: Place,
  edges: Float64Array,
  sectors: number,
): PolarGrid {
  const { width, height, counts: source } = image;
  if (mask.length !== source.length)
    throw new RangeError(`polarGrid requires a mask of ${source.length}, got ${mask.length}`);
  if (!Number.isInteger(sectors) || sectors < 4)
    throw new RangeError(`polarGrid requires at least 4 sectors, got ${sectors}`);
  const rings = edges.length - 1;
  const cells = rings * sectors;
  const outer = edges[rings]!;
  const boxX = Math.max(0, Math.ceil(centre.x - outer));
  const boxY = Math.max(0, Math.ceil(centre.y - outer));
  const boxWidth = Math.max(0, Math.min(width - 1, Math.floor(centre.x + outer)) - boxX + 1);
  const boxHeight = Math.max(0, Math.min(height - 1, Math.floor(centre.y + outer)) - boxY + 1);
  const cellOf = new Int32Array(boxWidth * boxHeight);
  const pixels = new Int32Array(cells);
  const pixelsInImage = new Int32Array(cells);
  const radius = new Float64Array(cells);
  const squares = edges.map((edge) => edge * edge);
  const limits = squares[rings]!;
  const boundaries = Float64Array.from({ length: sectors + 1 }, (_, s) => (s * 2 * Math.PI) / sectors);
  // Rows are walked from left to right: ring and sector change step by step, without an arc tangent for each pixel.
  for (let j = 0; j < boxHeight; j++) {
    const dy = boxY + j - centre.y;
    const crossings = rowCrossings(dy, boundaries);
    let next = 0;
    let ring = rings - 1;
    for (let i = 0; i < boxWidth; i++) {
      const dx = boxX + i - centre.x;
      const at = j * boxWidth + i;
      const square = dx * dx + dy * dy;
      if (square >= limits) {
        cellOf[at] = -1;
        continue;
      }
      while (square < squares[ring]!) ring--;
      while (square >= squares[ring + 1]!) ring++;
      while (next < crossings.from.length && dx >= crossings.from[next]!) next++;
      const cell = ring * sectors + crossings.sector[next]!;
      cellOf[at] = cell;
      pixelsInImage[cell]!++;
      if (mask[(boxY + j) * width + boxX + i] !== 0) continue;
      pixels[cell]!++;
      radius[cell]! += Math.sqrt(square);
    }
  }
  const first = new Int32Array(cells + 1);
  for (let c = 0; c < cells; c++) first[c + 1] = first[c]! + pixels[c]!;
  const place = first.slice();
  const sorted = new Float32Array(first[cells]!);
  for (let j = 0; j < boxHeight; j++) {
    const row = (boxY + j) * width + boxX;
    for (let i = 0; i < boxWidth; i++) {
      const cell = cellOf[j * boxWidth + i]!;
      if (cell >= 0 && mask[row + i] === 0) sorted[place[cell]!++] = source[row + i]!;
    }
  }
  const counts = new Float64Array(cells).fill(Number.NaN);
  const medians = new Float64Array(cells).fill(Number.NaN);
  const widths: number[] = [];
  const spread = new Float64Array(cells).fill(Number.NaN);
  for (let c = 0; c < cells; c++) {
    const n = pixels[c]!;
    if (n === 0) continue;
    radius[c]! /= n;
    const from = first[c]!;
    const to = first[c + 1]!;
    const half = from + (n >> 1);
    let middle = selectOrder(sorted, from, to, half);
    if (n % 2 === 0) middle = (middle + largest(sorted, from, half)) / 2;
    medians[c] = middle;
    if (n < 4) {
      counts[c] = middle;
      continue;
    }
    const low = from + (n >> 2);
    const high = to - 1 - (n >> 2);
    const lower = selectOrder(sorted, from, half, Math.min(low, half - 1));
    const upper = selectOrder(sorted, half, to, Math.max(high, half));
    widths[n] ??= middleHalfWidth(n);
    spread[c] = (upper - lower) / widths[n];
    let sum = 0;
    for (let k = low; k <= high; k++) sum += sorted[k]!;
    counts[c] = sum / (high - low + 1);
  }
  return {
    centre,
    edges,
    rings,
    sectors,
    counts,
    medians,
    spread,
    pixels,
    pixelsInImage,
    radius,
    cellOf,
    boxX,
    boxY,
    boxWidth,
    boxHeight,
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

function largest(values: Float32Array, from: number, to: number): number {
  let most = values[from]!;
  for (let k = from + 1; k < to; k++) if (values[k]! > most) most = values[k]!;
  return most;
}
