import { type DiskStart, diskShare } from './diskShape.js';
import type { RingTable } from './ringTable.js';
import { solveSymmetric } from './solveSymmetric.js';
import type { WingModel } from './wings.js';

const ROUNDS = 40;
/** Where fits are only compared: one that is not near by then began in the wrong place. */
const FEW_ROUNDS = 10;
/** A fall of the weighted sum of squares that nobody would see. */
export const NEGLIGIBLE = 3e-3;
/** The same where fits are only compared. */
export const COARSE = 0.05;
/** A disk moves at most this share of its outer radius from the star. */
const MOST_DISPLACED = 0.4;
/** Edges are at least this soft, pixels, and at most this share of the outer radius. */
const LEAST_BLUR = 0.25;
const MOST_BLUR = 0.08;

/** Where the parameters lie. */
export interface Layout {
  /** Of the background and the wings. */
  readonly fixed: number;
  readonly begins: readonly number[];
  readonly size: number;
}

/** Sorts the parameters. */
export function layOut(starts: readonly DiskStart[], fixed: number): Layout {
  const begins: number[] = [];
  let size = fixed;
  for (const start of starts) {
    begins.push(size);
    size += 1 + (start.radiusFree ? 2 : 0) + (start.holeFree ? 1 : 0) + (start.placeFree ? 2 : 0);
  }
  return { fixed, begins, size };
}

/** What does not change while disks are fitted. */
export interface StaticCells {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Background and wings of each cell, `fixed` numbers each. */
  readonly rows: Float64Array;
}

/** Background and wings of each cell. */
export function staticCells(table: RingTable, wings: WingModel): StaticCells {
  const { sectors, cellRadius } = table;
  const fixed = 3 + wings.size;
  const length = cellRadius.length;
  const x = new Float64Array(length);
  const y = new Float64Array(length);
  const rows = new Float64Array(length * fixed);
  for (let k = 0; k < length; k++) {
    const r = cellRadius[k] || 1;
    const angle = (((k % sectors) + 0.5) * 2 * Math.PI) / sectors;
    x[k] = r * Math.cos(angle);
    y[k] = r * Math.sin(angle);
    rows[k * fixed] = 1;
    rows[k * fixed + 1] = x[k]!;
    rows[k * fixed + 2] = y[k]!;
    wings.at(r, rows, k * fixed + 3);
  }
  return { x, y, rows };
}

const share = new Float64Array(6);

/** Fills the disks' part of a row (derivatives by the parameters) and returns the disks' light in a cell. */
function diskRow(
  table: RingTable,
  cells: StaticCells,
  layout: Layout,
  k: number,
  disks: readonly DiskStart[],
  row: Float64Array,
): number {
  const x = cells.x[k]!;
  const y = cells.y[k]!;
  const width = table.width[Math.floor(k / table.sectors)]!;
  const arc = (2 * Math.PI) / table.sectors;
  let light = 0;
  for (let d = 0; d < disks.length; d++) {
    const disk = disks[d]!;
    // Along the arc of a cell the distance from a displaced middle changes.
    const across =
      disk.dx === 0 && disk.dy === 0 ? 0 : ((disk.dx * y - disk.dy * x) * arc) / Math.hypot(x, y);
    const softness = Math.sqrt((width * width + across * across) / 12 + disk.blur * disk.blur);
    diskShare(disk, x, y, softness, share);
    light += disk.surface * share[0]!;
    let at = layout.begins[d]!;
    row[at++] = share[0]!;
    if (disk.radiusFree) {
      row[at++] = disk.surface * share[1]!;
      row[at++] = (disk.surface * share[5]! * disk.blur) / softness;
    }
    if (disk.holeFree) row[at++] = disk.surface * share[2]!;
    if (disk.placeFree) {
      row[at++] = disk.surface * share[3]!;
      row[at++] = disk.surface * share[4]!;
    }
  }
  return light;
}

/** Value of the model at a cell; fills `row` with its derivatives. */
export function evaluate(
  table: RingTable,
  cells: StaticCells,
  layout: Layout,
  k: number,
  theta: Float64Array,
  disks: readonly DiskStart[],
  row: Float64Array,
): number {
  const { fixed } = layout;
  let value = diskRow(table, cells, layout, k, disks, row);
  for (let j = 0; j < fixed; j++) {
    row[j] = cells.rows[k * fixed + j]!;
    value += theta[j]! * row[j]!;
  }
  return value;
}

/** Damped Gauss-Newton steps with given weights, until the sum of squares falls no more. */
export function descend(
  table: RingTable,
  cells: StaticCells,
  layout: Layout,
  weights: Float64Array,
  starts: readonly DiskStart[],
  from: Float64Array,
  negligible: number,
): Float64Array {
  const { fixed, size: p } = layout;
  const active = Int32Array.from(weights.keys()).filter((k) => weights[k]! > 0);
  const { rows } = cells;
  const { counts } = table;
  // The block of background and wings stays the same throughout.
  const fixedBlock = new Float64Array(p * p);
  for (const k of active) {
    const weight = weights[k]!;
    const base = k * fixed;
    for (let a = 0; a < fixed; a++) {
      const factor = weight * rows[base + a]!;
      for (let b = 0; b <= a; b++) fixedBlock[a * p + b]! += factor * rows[base + b]!;
    }
  }
  const row = new Float64Array(p);
  const accumulate = (theta: Float64Array): { matrix: Float64Array; right: Float64Array; sum: number } => {
    const disks = disksFrom(theta, starts, layout.begins);
    const matrix = fixedBlock.slice();
    const right = new Float64Array(p);
    let sum = 0;
    for (let index = 0; index < active.length; index++) {
      const k = active[index]!;
      const weight = weights[k]!;
      const base = k * fixed;
      let residual = counts[k]!;
      if (disks.length > 0) residual -= diskRow(table, cells, layout, k, disks, row);
      for (let j = 0; j < fixed; j++) residual -= theta[j]! * rows[base + j]!;
      const weighted = weight * residual;
      sum += weighted * residual;
      for (let j = 0; j < fixed; j++) right[j]! += weighted * rows[base + j]!;
      for (let a = fixed; a < p; a++) {
        const value = row[a]!;
        if (value === 0) continue; // a disk that does not reach here
        right[a]! += weighted * value;
        const factor = weight * value;
        const at = a * p;
        for (let b = 0; b < fixed; b++) matrix[at + b]! += factor * rows[base + b]!;
        for (let b = fixed; b <= a; b++) matrix[at + b]! += factor * row[b]!;
      }
    }
    return { matrix, right, sum };
  };
  let parameters = from;
  let here = accumulate(parameters);
  const isLinear = starts.every((start) => !start.radiusFree && !start.holeFree && !start.placeFree);
  let damping = isLinear ? 0 : 1e-4;
  const most = negligible === NEGLIGIBLE ? ROUNDS : FEW_ROUNDS;
  for (let round = 0; round < most; round++) {
    const step = solveSymmetric(here.matrix, here.right, p, damping);
    if (step === null) break;
    const trial = bounded(
      parameters.map((value, j) => value + step[j]!),
      starts,
      layout.begins,
      table,
    );
    const there = accumulate(trial);
    if (there.sum <= here.sum) {
      const gain = here.sum - there.sum;
      parameters = trial;
      here = there;
      damping = damping / 5;
      if (gain < negligible || isLinear) break;
    } else {
      damping = Math.max(1e-6, damping * 8);
      if (damping > 1e6) break;
    }
  }
  return parameters;
}

/**
 * Disks from the parameters of a fit.
 *
 * @param theta - parameters as in a fit
 * @param starts - which of them are free
 * @param begins - where those of each disk begin
 * @returns one disk for each start
 */
export function disksFrom(
  theta: Float64Array,
  starts: readonly DiskStart[],
  begins: readonly number[],
): DiskStart[] {
  return starts.map((start, d) => {
    let at = begins[d]!;
    const surface = theta[at++]!;
    const outer = start.radiusFree ? theta[at++]! : start.outer;
    const blur = start.radiusFree ? theta[at++]! : start.blur;
    const inner = start.holeFree ? theta[at++]! : start.inner;
    const dx = start.placeFree ? theta[at++]! : start.dx;
    const dy = start.placeFree ? theta[at]! : start.dy;
    return { ...start, surface, outer, blur, inner, dx, dy };
  });
}

/** Adds a row to normal equations; the lower half of the matrix is filled. */
export function addTo(
  matrix: Float64Array,
  right: Float64Array,
  row: Float64Array,
  weight: number,
  residual: number,
  p: number,
): void {
  for (let a = 0; a < p; a++) {
    const factor = weight * row[a]!;
    if (factor === 0) continue; // a disk that does not reach here
    right[a]! += factor * residual;
    const base = a * p;
    for (let b = 0; b <= a; b++) matrix[base + b]! += factor * row[b]!;
  }
}

function bounded(
  theta: Float64Array,
  starts: readonly DiskStart[],
  begins: readonly number[],
  table: RingTable,
): Float64Array {
  const first = table.radius[0]! - table.width[0]! / 2;
  const last = table.radius[table.radius.length - 1]!;
  starts.forEach((start, d) => {
    let place = begins[d]! + 1;
    let outer = start.outer;
    if (start.radiusFree) {
      outer = Math.max(first + 2, Math.min(last, theta[place]!));
      theta[place++] = outer;
      theta[place] = Math.max(LEAST_BLUR, Math.min(MOST_BLUR * outer, theta[place]!));
      place++;
    }
    if (start.holeFree) {
      theta[place] = Math.max(first, Math.min(outer - 1, theta[place]!));
      place++;
    }
    if (!start.placeFree) return;
    const length = Math.hypot(theta[place]!, theta[place + 1]!);
    const most = MOST_DISPLACED * outer;
    if (length <= most) return;
    theta[place]! *= most / length;
    theta[place + 1]! *= most / length;
  });
  return theta;
}
