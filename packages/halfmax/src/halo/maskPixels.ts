import { medianOf } from './medianOf.js';
import type { PolarGrid } from './polarGrid.js';
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
  const { boxX, boxY, boxWidth, boxHeight, cellOf, medians, sectors, rings } = grid;
  const { width, height, counts } = image;
  const noise = ringNoise(grid);
  const background = medianOf(Array.from(medians.subarray(Math.floor(rings * 0.8) * sectors)));
  const { expected, slope, offset } = cellModel(grid, plane);
  const result = mask.slice();
  const deviation = new Float32Array(boxWidth * boxHeight);
  const known = new Uint8Array(boxWidth * boxHeight);
  for (let j = 0; j < boxHeight; j++) {
    const row = (boxY + j) * width + boxX;
    const dy = boxY + j - grid.centre.y;
    for (let i = 0; i < boxWidth; i++) {
      const at = j * boxWidth + i;
      const cell = cellOf[at]!;
      if (cell < 0 || mask[row + i] !== 0) continue;
      const ring = (cell / sectors) | 0;
      const sigma = noise[ring]!;
      const middle = expected[cell]!;
      if (!(sigma > 0) || Number.isNaN(middle) || grid.edges[ring]! < core) continue;
      const dx = boxX + i - grid.centre.x;
      const distance = Math.sqrt(dx * dx + dy * dy);
      const here = middle + slope[ring]! * (distance - offset[ring]!) + plane.x * dx + plane.y * dy;
      const light = Math.max(0, middle - background);
      const allowed = (CELL_SHARE + CELL_CURVATURE / (distance * distance)) * light;
      const beyond = counts[row + i]! - here;
      // What the cell cannot tell is taken off before noise is reckoned: in a patch it would not average out.
      const score = (Math.sign(beyond) * Math.max(0, Math.abs(beyond) - allowed)) / sigma;
      if (Math.abs(score) > HOT_DEVIATION) result[row + i]! |= PIXEL_HOT;
      deviation[at] = Math.max(-HOT_DEVIATION, Math.min(HOT_DEVIATION, score));
      known[at] = 1;
    }
  }
  for (const { size, deviation: limit, margin } of PATCHES) {
    const { sums, numbers } = patchSums(deviation, known, boxWidth, boxHeight, size);
    for (let j = 0; j < boxHeight; j++) {
      for (let i = 0; i < boxWidth; i++) {
        const at = j * boxWidth + i;
        const n = numbers[at]!;
        if (n < 3 || sums[at]! <= limit * Math.sqrt(n)) continue;
        spreadMark(result, width, height, (boxY + j) * width + boxX + i, margin, PIXEL_NEIGHBOUR);
      }
    }
  }
  return result;
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

/** Level of each cell without the plane, radial slope and middle of each ring. */
function cellModel(
  grid: PolarGrid,
  plane: Place,
): { expected: Float64Array; slope: Float64Array; offset: Float64Array } {
  const { rings, sectors, medians, edges } = grid;
  const expected = new Float64Array(rings * sectors);
  const level = new Float64Array(rings);
  const offset = new Float64Array(rings);
  const slope = new Float64Array(rings);
  for (let i = 0; i < rings; i++) {
    offset[i] = (edges[i]! + edges[i + 1]!) / 2;
    const values: number[] = [];
    for (let s = 0; s < sectors; s++) {
      const cell = i * sectors + s;
      const angle = ((s + 0.5) * 2 * Math.PI) / sectors;
      const along = offset[i]! * (plane.x * Math.cos(angle) + plane.y * Math.sin(angle));
      expected[cell] = medians[cell]! - along;
      if (!Number.isNaN(expected[cell]!)) values.push(expected[cell]!);
    }
    level[i] = values.length > 0 ? medianOf(values) : Number.NaN;
  }
  for (let i = 0; i < rings; i++) {
    const a = Math.max(0, i - 1);
    const b = Math.min(rings - 1, i + 1);
    const rise = (level[b]! - level[a]!) / (offset[b]! - offset[a]!);
    slope[i] = Number.isFinite(rise) ? rise : 0;
  }
  return { expected, slope, offset };
}

/** Sums over squares about every place, and how many values each holds. */
function patchSums(
  values: Float32Array,
  known: Uint8Array,
  width: number,
  height: number,
  size: number,
): { sums: Float32Array; numbers: Uint8Array } {
  const half = size >> 1;
  const rows = new Float32Array(values.length);
  const rowNumbers = new Uint8Array(values.length);
  for (let j = 0; j < height; j++) {
    let sum = 0;
    let n = 0;
    const start = j * width;
    const end = start + width;
    for (let at = start; at < Math.min(end, start + half); at++) {
      sum += values[at]!;
      n += known[at]!;
    }
    for (let at = start; at < end; at++) {
      const enters = at + half;
      const leaves = at - half - 1;
      if (enters < end) {
        sum += values[enters]!;
        n += known[enters]!;
      }
      if (leaves >= start) {
        sum -= values[leaves]!;
        n -= known[leaves]!;
      }
      rows[at] = sum;
      rowNumbers[at] = n;
    }
  }
  const sums = new Float32Array(values.length);
  const numbers = new Uint8Array(values.length);
  const column = new Float64Array(width);
  const columnNumbers = new Int32Array(width);
  for (let j = -half; j < height; j++) {
    const enters = (j + half) * width;
    const leaves = (j - half - 1) * width;
    if (j + half < height) {
      for (let i = 0; i < width; i++) {
        column[i]! += rows[enters + i]!;
        columnNumbers[i]! += rowNumbers[enters + i]!;
      }
    }
    if (j - half - 1 >= 0) {
      for (let i = 0; i < width; i++) {
        column[i]! -= rows[leaves + i]!;
        columnNumbers[i]! -= rowNumbers[leaves + i]!;
      }
    }
    if (j < 0) continue;
    for (let i = 0; i < width; i++) {
      sums[j * width + i] = column[i]!;
      numbers[j * width + i] = columnNumbers[i]!;
    }
  }
  return { sums, numbers };
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
