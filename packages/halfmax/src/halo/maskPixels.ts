import { medianOf } from './medianOf.js';
import { patchSearch } from './patchSearch.js';
import type { PolarGrid } from './polarGrid.js';
import { rowCells } from './rowCells.js';
import {
  PIXEL_HOT,
  PIXEL_NEIGHBOUR,
  PIXEL_SATURATED,
  PIXEL_UNDEFINED,
  type Place,
  type StarImage,
} from './starImage.js';

/** Pixels beside a saturated one that are not trusted either. */
const SATURATION_MARGIN = 2;
/** A single pixel this far from its cell is a hit or a hot pixel, standard deviations. */
const HOT_DEVIATION = 8;
/** Square patches that are looked at, and how far above their cells they may be, standard deviations. */
const PATCHES: readonly { readonly size: number; readonly deviation: number; readonly margin: number }[] = [
  { size: 3, deviation: 5, margin: 2 },
  { size: 9, deviation: 6, margin: 3 },
];
/** How well a cell stands for each of its pixels, as a share of its light above the background. */
const CELL_SHARE = 0.03;
/** The same for the curve of a steep profile within a ring of one pixel, times the distance squared, pixels squared. */
const CELL_CURVATURE = 25;

/**
 * Marks the pixels that have no value or are too full, and those beside the full ones.
 *
 * @param image - the picture
 * @param saturationCounts - counts at and above which a pixel is full
 * @returns the reason a pixel is left out, 0 where it is not; length as the image
 */
export function maskSaturated(image: StarImage, saturationCounts: number): Uint8Array {
  const { width, height, counts } = image;
  const mask = new Uint8Array(counts.length);
  for (let k = 0; k < counts.length; k++) {
    const value = counts[k]!;
    if (!(value > Number.NEGATIVE_INFINITY && value < Number.POSITIVE_INFINITY)) mask[k]! |= PIXEL_UNDEFINED;
    if (value >= saturationCounts) spreadMark(mask, width, height, k, SATURATION_MARGIN, PIXEL_SATURATED);
  }
  return mask;
}

/**
 * Marks what stands out of its cell: hot pixels and hits, neighbours, narrow spikes, trails.
 *
 * @param image - the picture
 * @param mask - pixels left out so far
 * @param grid - rings and sectors made with that mask
 * @param plane - slope of the background, counts a pixel along x and y
 * @param core - distance from the centre within which nothing is judged, pixels
 * @returns a new mask, the old one's marks included
 *
 * Cost: O(pixels of the grid).
 */
export function maskOutliers(
  image: StarImage,
  mask: Uint8Array,
  grid: PolarGrid,
  plane: Place,
  core: number,
): Uint8Array {
  const { boxX, boxY, boxWidth, boxHeight, medians, sectors, rings } = grid;
  const { width, height, counts } = image;
  const background = medianOf(medians.subarray(Math.floor(rings * 0.8) * sectors));
  const model = cellModel(grid, plane, core, background);
  const cellsAt = rowCells(grid.centre, grid.edges, sectors, boxX);
  const result = mask.slice();
  const searches = PATCHES.map(({ size, deviation, margin }) =>
    patchSearch(boxWidth, boxHeight, size, deviation, (i, j) => {
      spreadMark(result, width, height, (boxY + j) * width + boxX + i, margin, PIXEL_NEIGHBOUR);
    }),
  );
  const cellRow = new Int32Array(boxWidth);
  const deviation = new Float32Array(boxWidth);
  const known = new Uint8Array(boxWidth);
  for (let y = boxY; y < boxY + boxHeight; y++) {
    const row = y * width + boxX;
    const end = row + boxWidth;
    cellsAt(y, cellRow);
    const rowMask = mask.subarray(row, end);
    const place = { x: boxX - grid.centre.x, y: y - grid.centre.y };
    judgeRow(cellRow, rowMask, counts.subarray(row, end), place, plane, model, deviation, known);
    clipHot(deviation, result.subarray(row, end));
    for (const search of searches) search.push(deviation, known);
  }
  for (const search of searches) search.finish();
  return result;
}

/** Deviations of the pixels of a row from their cells, in standard deviations, and which of them are judged. */
function judgeRow(
  cellRow: Int32Array,
  mask: Uint8Array,
  counts: Float32Array | Float64Array,
  left: Place,
  plane: Place,
  model: CellModel,
  deviation: Float32Array,
  known: Uint8Array,
): void {
  const { level, slope, light, perNoise } = model;
  const dy = left.y;
  for (let i = 0; i < cellRow.length; i++) {
    const cell = cellRow[i]!;
    deviation[i] = 0;
    known[i] = 0;
    if (cell < 0 || mask[i] !== 0) continue;
    const perDeviation = perNoise[cell]!;
    if (perDeviation === 0) continue;
    const dx = left.x + i;
    const square = dx * dx + dy * dy;
    const beyond =
      counts[i]! - (level[cell]! + slope[cell]! * Math.sqrt(square) + plane.x * dx + plane.y * dy);
    const bright = light[cell]!;
    const allowed = bright === 0 ? 0 : (CELL_SHARE + CELL_CURVATURE / square) * bright;
    // What the cell cannot tell is taken off before noise is reckoned: in a patch it would not average out.
    const score = Math.max(0, Math.abs(beyond) - allowed) * perDeviation;
    deviation[i] = beyond < 0 ? -score : score;
    known[i] = 1;
  }
}

/** Marks the pixels of a row that are hot, and holds their deviations to the limit. */
function clipHot(deviation: Float32Array, result: Uint8Array): void {
  for (let i = 0; i < result.length; i++) {
    const here = deviation[i]!;
    if (here <= HOT_DEVIATION && here >= -HOT_DEVIATION) continue;
    result[i]! |= PIXEL_HOT;
    deviation[i] = here > 0 ? HOT_DEVIATION : -HOT_DEVIATION;
  }
}

/** Noise of a single pixel in each ring: the median of its cells' spreads, rings with too few pixels as the next. */
export function ringNoise(grid: PolarGrid): Float64Array {
  const { rings, sectors, spread } = grid;
  const noise = new Float64Array(rings).fill(Number.NaN);
  for (let i = rings - 1; i >= 0; i--) {
    const values: number[] = [];
    for (let s = 0; s < sectors; s++) {
      const value = spread[i * sectors + s]!;
      if (value > 0) values.push(value);
    }
    if (values.length >= sectors / 3) noise[i] = medianOf(values);
    else if (i < rings - 1) noise[i] = noise[i + 1]!;
  }
  for (let i = 1; i < rings; i++) if (!(noise[i]! > 0)) noise[i] = noise[i - 1]!;
  return noise;
}

/** What is expected of the pixels of each cell: level + slope x distance, and the plane. */
interface CellModel {
  /** Level at the centre without the plane, counts. */
  readonly level: Float64Array;
  /** Radial slope, counts a pixel. */
  readonly slope: Float64Array;
  /** Light above the background, counts, not below 0. */
  readonly light: Float64Array;
  /** One over the noise of a pixel, 1/counts; 0 where pixels are not judged. */
  readonly perNoise: Float64Array;
}

function cellModel(grid: PolarGrid, plane: Place, core: number, background: number): CellModel {
  const { rings, sectors, medians, edges } = grid;
  const noise = ringNoise(grid);
  const cells = rings * sectors;
  const expected = new Float64Array(cells);
  const level = new Float64Array(cells);
  const slope = new Float64Array(cells);
  const light = new Float64Array(cells);
  const perNoise = new Float64Array(cells);
  const ringLevel = new Float64Array(rings);
  const middle = (ring: number): number => (edges[ring]! + edges[ring + 1]!) / 2;
  for (let i = 0; i < rings; i++) {
    const values: number[] = [];
    for (let s = 0; s < sectors; s++) {
      const cell = i * sectors + s;
      const angle = ((s + 0.5) * 2 * Math.PI) / sectors;
      const along = middle(i) * (plane.x * Math.cos(angle) + plane.y * Math.sin(angle));
      expected[cell] = medians[cell]! - along;
      if (Number.isNaN(expected[cell]!)) continue;
      values.push(expected[cell]!);
      if (noise[i]! > 0 && edges[i]! >= core) perNoise[cell] = 1 / noise[i]!;
    }
    ringLevel[i] = values.length > 0 ? medianOf(values) : Number.NaN;
  }
  for (let i = 0; i < rings; i++) {
    const a = Math.max(0, i - 1);
    const b = Math.min(rings - 1, i + 1);
    const rise = (ringLevel[b]! - ringLevel[a]!) / (middle(b) - middle(a));
    const ringSlope = Number.isFinite(rise) ? rise : 0;
    for (let cell = i * sectors; cell < (i + 1) * sectors; cell++) {
      slope[cell] = ringSlope;
      level[cell] = expected[cell]! - ringSlope * middle(i);
      light[cell] = Math.max(0, expected[cell]! - background);
    }
  }
  return { level, slope, light, perNoise };
}

function spreadMark(
  mask: Uint8Array,
  width: number,
  height: number,
  at: number,
  margin: number,
  mark: number,
): void {
  const x = at % width;
  const y = (at - x) / width;
  for (let j = Math.max(0, y - margin); j <= Math.min(height - 1, y + margin); j++) {
    for (let i = Math.max(0, x - margin); i <= Math.min(width - 1, x + margin); i++)
      mask[j * width + i]! |= mark;
  }
}
