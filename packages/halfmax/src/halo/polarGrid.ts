import { normalQuantile } from '../numeric/index.js';
import { rowCells } from './rowCells.js';
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
  /** Of the pixels, which are looked at; 1: all. Near the centre it may be more. */
  readonly share: number;
  /** Mean distance of the pixels used from the centre, pixels. */
  readonly radius: Float64Array;
  /** Box of the pixels that the rings reach. */
  readonly boxX: number;
  readonly boxY: number;
  readonly boxWidth: number;
  readonly boxHeight: number;
}

/** Rows at most this far from the centre are always looked at, pixels: cells are small there. */
const NEAR = 128;

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
 * @param room - to work in, at least as long as the image: memory used before is quicker than new; left out: made
 * @param rowStep - 1: all rows; 2: every other one, and so on, where a rough view will do; near the centre always all
 * @returns cells
 * @throws {RangeError} a mask of another length, fewer than 4 sectors, too little room, a step below 1
 *
 * Cost: O(pixels within the last ring).
 */
export function polarGrid(
  image: StarImage,
  mask: Uint8Array,
  centre: Place,
  edges: Float64Array,
  sectors: number,
  room?: Float32Array,
  rowStep = 1,
): PolarGrid {
  const { width, height, counts: source } = image;
  if (mask.length !== source.length)
    throw new RangeError(`polarGrid requires a mask of ${source.length}, got ${mask.length}`);
  if (!Number.isInteger(sectors) || sectors < 4)
    throw new RangeError(`polarGrid requires at least 4 sectors, got ${sectors}`);
  if (room !== undefined && room.length < source.length)
    throw new RangeError(`polarGrid requires room for ${source.length}, got ${room.length}`);
  if (!Number.isInteger(rowStep) || rowStep < 1)
    throw new RangeError(`polarGrid requires a whole step of rows of at least 1, got ${rowStep}`);
  const rings = edges.length - 1;
  const cells = rings * sectors;
  const outer = edges[rings]!;
  const boxX = Math.max(0, Math.ceil(centre.x - outer));
  const boxY = Math.max(0, Math.ceil(centre.y - outer));
  const boxWidth = Math.max(0, Math.min(width - 1, Math.floor(centre.x + outer)) - boxX + 1);
  const boxHeight = Math.max(0, Math.min(height - 1, Math.floor(centre.y + outer)) - boxY + 1);
  const pixels = new Int32Array(cells);
  const pixelsInImage = new Int32Array(cells);
  const radius = new Float64Array(cells);
  const sums = { pixels, pixelsInImage, radius };
  const cellsAt = rowCells(centre, edges, sectors, boxX);
  const cellRow = new Int32Array(boxWidth);
  const rows: number[] = [];
  for (let y = boxY; y < boxY + boxHeight; y++) {
    if (Math.abs(y - centre.y) <= NEAR || y % rowStep === 0) rows.push(y);
  }
  // In small functions, called for every row: they are compiled soon, a long one that goes over an image once is not.
  for (const y of rows) {
    const row = y * width + boxX;
    cellsAt(y, cellRow);
    countRow(cellRow, mask.subarray(row, row + boxWidth), boxX - centre.x, y - centre.y, sums);
  }
  const place = new Int32Array(cells + 1);
  for (let c = 0; c < cells; c++) place[c + 1] = place[c]! + pixels[c]!;
  const sorted = room ?? new Float32Array(place[cells]!);
  for (const y of rows) {
    const row = y * width + boxX;
    const end = row + boxWidth;
    // Found again: to keep the cells of all pixels would take more time than that.
    cellsAt(y, cellRow);
    gatherRow(cellRow, mask.subarray(row, end), source.subarray(row, end), sorted, place);
  }
  const counts = new Float64Array(cells).fill(Number.NaN);
  const medians = new Float64Array(cells).fill(Number.NaN);
  const spread = new Float64Array(cells).fill(Number.NaN);
  const widths: number[] = [];
  const most = pixels.reduce((largest, n) => Math.max(largest, n), 0);
  const values = new Float64Array(most);
  for (let c = 0, end = 0; c < cells; c++) {
    const n = pixels[c]!;
    end += n;
    if (n === 0) continue;
    radius[c]! /= n;
    for (let k = 0; k < n; k++) values[k] = sorted[end - n + k]!;
    medians[c] = middleOf(values, n);
    counts[c] = medians[c]!;
    if (n < 4) continue;
    widths[n] ??= middleHalfWidth(n);
    spread[c] = quarters(values, n) / widths[n];
    counts[c] = middleMean(values, n);
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
    share: 1 / rowStep,
    radius,
    boxX,
    boxY,
    boxWidth,
    boxHeight,
  };
}

/** Adds the pixels of a row to the numbers of their cells. */
function countRow(
  cellRow: Int32Array,
  mask: Uint8Array,
  left: number,
  dy: number,
  { pixels, pixelsInImage, radius }: Pick<PolarGrid, 'pixels' | 'pixelsInImage' | 'radius'>,
): void {
  for (let i = 0; i < cellRow.length; i++) {
    const cell = cellRow[i]!;
    if (cell < 0) continue;
    pixelsInImage[cell]!++;
    if (mask[i] !== 0) continue;
    const dx = left + i;
    pixels[cell]!++;
    radius[cell]! += Math.sqrt(dx * dx + dy * dy);
  }
}

/** Puts the pixels of a row to those of their cells. */
function gatherRow(
  cellRow: Int32Array,
  mask: Uint8Array,
  source: Float32Array | Float64Array,
  sorted: Float32Array,
  place: Int32Array,
): void {
  for (let i = 0; i < cellRow.length; i++) {
    const cell = cellRow[i]!;
    if (cell >= 0 && mask[i] === 0) sorted[place[cell]!++] = source[i]!;
  }
}

/** Median of the first n values, which are then parted about it. */
function middleOf(values: Float64Array, n: number): number {
  const half = n >> 1;
  const middle = selectOrder(values, 0, n, half);
  if (n % 2 === 1) return middle;
  let most = values[0]!;
  for (let k = 1; k < half; k++) if (values[k]! > most) most = values[k]!;
  return (middle + most) / 2;
}

/** Distance of the quartiles of values that are parted about their median, n >= 4; then the middle half lies together. */
function quarters(values: Float64Array, n: number): number {
  const half = n >> 1;
  const low = n >> 2;
  const lower = selectOrder(values, 0, half, Math.min(low, half - 1));
  return selectOrder(values, half, n, Math.max(n - 1 - low, half)) - lower;
}

function middleMean(values: Float64Array, n: number): number {
  const low = n >> 2;
  const high = n - 1 - low;
  let sum = 0;
  for (let k = low; k <= high; k++) sum += values[k]!;
  return sum / (high - low + 1);
}
