import { ringNoise } from './maskPixels.js';
import { medianOf } from './medianOf.js';
import type { PolarGrid } from './polarGrid.js';
import type { Place } from './starImage.js';

/** Cells of a grid made ready for fitting, and what each ring says. Only usable rings and cells are in it. */
export interface RingTable {
  readonly sectors: number;
  /** Rings of the grid that are used, from the inside. */
  readonly ring: Int32Array;
  /** Area-weighted mean radius, and width, of each ring used, pixels. */
  readonly radius: Float64Array;
  readonly width: Float64Array;
  /** Cell values, counts, ring after ring; NaN where a cell is not used. */
  readonly counts: Float64Array;
  /** Light of known disks in each cell, counts, taken out before rings are averaged. */
  readonly light: Float64Array;
  /** Where each cell's pixels lie on average: radius, pixels. */
  readonly cellRadius: Float64Array;
  /** Variance of each cell: noise of its pixels and what the ring's sectors scatter beyond it. */
  readonly variance: Float64Array;
  /** Robust mean over the sectors without the plane and known disks, and its variance, counts. */
  readonly mean: Float64Array;
  readonly meanVariance: Float64Array;
  /** Median over the sectors without the plane and known disks, counts. */
  readonly median: Float64Array;
  /** Sectors in each ring. */
  readonly used: Int32Array;
  /** Slope of the background used, counts a pixel. */
  readonly plane: Place;
}

/** Sectors that a ring must have, as a share. */
const LEAST_SECTORS = 0.6;
/** Pixels that a cell must have, as a share of those it would have in a clean image. */
const LEAST_PIXELS = 0.3;
const MIDMEAN_VARIANCE = 1.2; // of the mean of the middle half, over that of the mean, for normal noise
/** Tukey's biweight: a sector beyond this many standard deviations counts for nothing. */
const BIWEIGHT = 6;

/**
 * Makes a polar grid ready for fitting: drops rings that are hidden or run out of the image, takes out the slope of
 * the background, and weighs each cell.
 *
 * @param grid - rings and sectors
 * @param core - distance within which nothing is used, pixels
 * @param known - light of known disks in each cell of the grid, counts; left out: none
 * @returns the table; with fewer than 8 rings nothing can be fitted
 */
export function ringTable(grid: PolarGrid, core: number, known?: Float64Array): RingTable {
  const { sectors, edges } = grid;
  const rings = usableRings(grid, core);
  const n = rings.length;
  const radius = new Float64Array(n);
  const width = new Float64Array(n);
  const counts = new Float64Array(n * sectors).fill(Number.NaN);
  const cellRadius = new Float64Array(n * sectors);
  const light = new Float64Array(n * sectors);
  const used = new Int32Array(n);
  rings.forEach((ring, i) => {
    const a = edges[ring]!;
    const b = edges[ring + 1]!;
    radius[i] = ((2 / 3) * (b ** 3 - a ** 3)) / (b * b - a * a);
    width[i] = b - a;
    for (let s = 0; s < sectors; s++) {
      const cell = ring * sectors + s;
      if (!usable(grid, ring, s)) continue;
      counts[i * sectors + s] = grid.counts[cell]!;
      cellRadius[i * sectors + s] = grid.radius[cell]!;
      light[i * sectors + s] = known === undefined ? 0 : known[cell]!;
      used[i]!++;
    }
  });
  const table = { sectors, radius, cellRadius, counts: counts.map((value, k) => value - light[k]!) };
  const plane = slopeOfBackground(table);
  const noise = ringNoise(grid);
  const variance = new Float64Array(n * sectors);
  const level = levels(table, plane, ringMedians(table, 0));
  const excess = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const values: number[] = [];
    const noises: number[] = [];
    for (let s = 0; s < sectors; s++) {
      const k = i * sectors + s;
      if (Number.isNaN(counts[k]!)) continue;
      const cell = rings[i]! * sectors + s;
      const pixels = grid.pixels[cell]!;
      variance[k] = ((pixels < 4 ? 1.5 : MIDMEAN_VARIANCE) * noise[rings[i]!]! ** 2) / pixels;
      noises.push(variance[k]!);
      values.push(Math.abs(level.values[k]! - level.median[i]!));
    }
    excess[i] = (1.4826 * medianOf(values)) ** 2 - medianOf(noises);
  }
  const mean = new Float64Array(n);
  const meanVariance = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const beyond = Math.max(0, medianOf(excess.subarray(Math.max(0, i - 4), i + 5)));
    for (let s = 0; s < sectors; s++) variance[i * sectors + s]! += beyond;
    const from = i * sectors;
    const values = level.values.subarray(from, from + sectors);
    const [value, itsVariance] = biweight(values, variance.subarray(from, from + sectors), level.median[i]!);
    mean[i] = value;
    meanVariance[i] = itsVariance;
  }
  return {
    sectors,
    ring: Int32Array.from(rings),
    radius,
    width,
    counts,
    light,
    cellRadius,
    variance,
    mean,
    meanVariance,
    median: level.median,
    used,
    plane,
  };
}

function usable(grid: PolarGrid, ring: number, s: number): boolean {
  const a = grid.edges[ring]!;
  const b = grid.edges[ring + 1]!;
  const whole = (grid.share * Math.PI * (b * b - a * a)) / grid.sectors;
  const n = grid.pixels[ring * grid.sectors + s]!;
  return n >= 1 && n >= LEAST_PIXELS * whole;
}

/** The longest run of rings with enough sectors; single rings without do not end it. */
function usableRings(grid: PolarGrid, core: number): number[] {
  const good: number[] = [];
  for (let i = 0; i < grid.rings; i++) {
    if (grid.edges[i]! < Math.max(2, core)) continue;
    let sectors = 0;
    for (let s = 0; s < grid.sectors; s++) if (usable(grid, i, s)) sectors++;
    if (sectors >= LEAST_SECTORS * grid.sectors) good.push(i);
  }
  let best: number[] = [];
  let run: number[] = [];
  for (const ring of good) {
    const last = run[run.length - 1];
    if (last !== undefined && ring - last > 3) run = [];
    run.push(ring);
    if (run.length > best.length) best = run.slice();
  }
  return best;
}

type Cells = Pick<RingTable, 'sectors' | 'radius' | 'cellRadius' | 'counts'>;

/** Median of the cells of each ring, from the one before a ring on. */
function ringMedians({ sectors, radius, counts }: Cells, from: number): Float64Array {
  const medians = new Float64Array(radius.length);
  for (let i = Math.max(0, from - 1); i < radius.length; i++) {
    medians[i] = medianOf(counts.subarray(i * sectors, (i + 1) * sectors));
  }
  return medians;
}

/**
 * Each cell brought to the middle radius of its ring and without the plane, from a ring on; median of each ring.
 * `medians` are those of the cells as they are.
 */
function levels(
  table: Cells,
  plane: Place,
  medians: Float64Array,
  from = 0,
): { values: Float64Array; median: Float64Array } {
  const { sectors, radius, cellRadius, counts } = table;
  const n = radius.length;
  const values = new Float64Array(counts.length);
  const median = new Float64Array(n);
  const rises = sectorRises(sectors, plane);
  for (let i = from; i < n; i++) {
    const a = Math.max(0, i - 1);
    const b = Math.min(n - 1, i + 1);
    const slope = b > a ? (medians[b]! - medians[a]!) / (radius[b]! - radius[a]!) : 0;
    for (let s = 0; s < sectors; s++) {
      const k = i * sectors + s;
      const along = cellRadius[k]! * rises[s]!;
      values[k] = counts[k]! - along - slope * (cellRadius[k]! - radius[i]!);
    }
  }
  for (let i = from; i < n; i++) median[i] = medianOf(values.subarray(i * sectors, (i + 1) * sectors));
  return { values, median };
}

/** Rise of the background outwards along each sector, counts a pixel. */
function sectorRises(sectors: number, plane: Place): Float64Array {
  return Float64Array.from({ length: sectors }, (_, s) => {
    const angle = ((s + 0.5) * 2 * Math.PI) / sectors;
    return plane.x * Math.cos(angle) + plane.y * Math.sin(angle);
  });
}

/** Least squares on what the cells differ from their ring's median, outer half of the rings, twice with a clip. */
function slopeOfBackground(table: Cells): Place {
  const { sectors, radius, cellRadius } = table;
  const n = radius.length;
  const east = sectorRises(sectors, { x: 1, y: 0 });
  const north = sectorRises(sectors, { x: 0, y: 1 });
  const first = Math.floor(n / 2);
  const medians = ringMedians(table, first);
  const row = new Float64Array(sectors);
  let plane: Place = { x: 0, y: 0 };
  for (let round = 0; round < 4; round++) {
    const { values, median } = levels(table, plane, medians, first);
    let xx = 0;
    let xy = 0;
    let yy = 0;
    let bx = 0;
    let by = 0;
    for (let i = first; i < n; i++) {
      for (let s = 0; s < sectors; s++) row[s] = Math.abs(values[i * sectors + s]! - median[i]!);
      const spread = 1.4826 * medianOf(row);
      for (let s = 0; s < sectors; s++) {
        const residual = values[i * sectors + s]! - median[i]!;
        if (!(Math.abs(residual) <= 3.5 * spread)) continue;
        const x = cellRadius[i * sectors + s]! * east[s]!;
        const y = cellRadius[i * sectors + s]! * north[s]!;
        const weight = 1 / (spread * spread || 1);
        xx += weight * x * x;
        xy += weight * x * y;
        yy += weight * y * y;
        bx += weight * x * residual;
        by += weight * y * residual;
      }
    }
    const determinant = xx * yy - xy * xy;
    if (!(determinant > 1e-9 * xx * yy)) return plane;
    plane = {
      x: plane.x + (yy * bx - xy * by) / determinant,
      y: plane.y + (xx * by - xy * bx) / determinant,
    };
  }
  return plane;
}

/** Weighted mean that far-off values do not reach, and its variance. */
function biweight(values: Float64Array, variances: Float64Array, start: number): [number, number] {
  let centre = start;
  let variance = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 8; round++) {
    let sum = 0;
    let weights = 0;
    let slopes = 0;
    for (let s = 0; s < values.length; s++) {
      const value = values[s]!;
      if (Number.isNaN(value)) continue;
      const deviation = value - centre;
      const variance = variances[s]!;
      const square = (deviation * deviation) / (BIWEIGHT * BIWEIGHT * variance);
      if (square >= 1) continue;
      const weight = ((1 - square) * (1 - square)) / variance;
      sum += weight * value;
      weights += weight;
      slopes += ((1 - square) * (1 - 5 * square)) / variance;
    }
    if (!(weights > 0)) return [start, Number.POSITIVE_INFINITY];
    centre = sum / weights;
    variance = weights / Math.max(slopes, 0.2 * weights) / weights;
  }
  return [centre, variance];
}
