import { type DiskShape, diskShare } from './diskShape.js';
import type { RingTable } from './ringTable.js';
import { solveSymmetric } from './solveSymmetric.js';
import type { WingModel } from './wings.js';

/** A disk to be fitted, and what of it is free. */
export interface DiskStart extends DiskShape {
  /** Counts a pixel. */
  readonly surface: number;
  /** Whether the outer radius is fitted. */
  readonly radiusFree: boolean;
  readonly holeFree: boolean;
  readonly placeFree: boolean;
}

/** Background, wings and disks fitted to the cells together. */
export interface DiskFit {
  readonly disks: readonly DiskStart[];
  /**
   * Level, slope along x and y (counts, counts a pixel), coefficients of the wings, then for each disk surface
   * brightness and where free its outer radius, its inner radius, dx and dy.
   */
  readonly parameters: Float64Array;
  /** Where the parameters of each disk begin. */
  readonly begins: readonly number[];
  /** Normal equations of each sector at the solution (p x p) and their right sides (p). */
  readonly matrices: readonly Float64Array[];
  readonly scores: readonly Float64Array[];
  /** Response of the right side to a change of each ring by one count in all its sectors (p). */
  readonly ringScores: readonly Float64Array[];
  /** Weighted sum of squares and number of cells in it. */
  readonly sum: number;
  readonly cells: number;
  /** Residual of each ring (counts), its standard uncertainty, and the light of the wings there. */
  readonly ringResidual: Float64Array;
  readonly ringUncertainty: Float64Array;
  readonly wingLight: Float64Array;
  /** Model of each cell, and the disks' part of it, counts; index as in the table. */
  readonly model: Float64Array;
  readonly diskLight: Float64Array;
}

const ROUNDS = 40;
/** A fall of the weighted sum of squares that nobody would see. */
const NEGLIGIBLE = 3e-3;
const BIWEIGHT = 6;
/** A disk moves at most this share of its outer radius from the star. */
const MOST_DISPLACED = 0.4;

/**
 * Fits background, wings and disks to the cells by damped Gauss-Newton steps with robust weights.
 *
 * @param table - cells ready for fitting
 * @param wings - functions of the wings
 * @param starts - disks to begin with
 * @param blur - standard deviation of the disks' edges, pixels
 * @returns the fit with what a bootstrap over sectors needs
 *
 * Source: Marquardt, J. SIAM 11, 431 (1963); biweight: Beaton, Tukey, Technometrics 16, 147 (1974).
 * Cost: O(rounds x cells x p^2).
 */
export function fitDisks(
  table: RingTable,
  wings: WingModel,
  starts: readonly DiskStart[],
  blur: number,
): DiskFit {
  const fixed = 3 + wings.size;
  const begins: number[] = [];
  let p = fixed;
  for (const start of starts) {
    begins.push(p);
    p += 1 + (start.radiusFree ? 1 : 0) + (start.holeFree ? 1 : 0) + (start.placeFree ? 2 : 0);
  }
  const n = table.radius.length;
  const wingRows = new Float64Array(table.counts.length * wings.size);
  for (let k = 0; k < table.counts.length; k++) wings.at(table.cellRadius[k] || 1, wingRows, k * wings.size);
  let parameters: Float64Array = new Float64Array(p);
  starts.forEach((start, d) => {
    let at = begins[d]!;
    parameters[at++] = start.surface;
    if (start.radiusFree) parameters[at++] = start.outer;
    if (start.holeFree) parameters[at++] = start.inner;
    if (start.placeFree) parameters.set([start.dx, start.dy], at);
  });
  const disksOf = (theta: Float64Array): DiskStart[] => disksFrom(theta, starts, begins);

  const row = new Float64Array(p);
  const share = new Float64Array(5);
  const angles = Array.from({ length: table.sectors }, (_, s) => ((s + 0.5) * 2 * Math.PI) / table.sectors);
  const cosines = angles.map(Math.cos);
  const sines = angles.map(Math.sin);
  const arc = (2 * Math.PI) / table.sectors;
  /** Value of the model at a cell; fills `row` with its derivatives. */
  const evaluate = (k: number, i: number, s: number, theta: Float64Array, disks: readonly DiskStart[]): number => {
    const r = table.cellRadius[k]!;
    const x = r * cosines[s]!;
    const y = r * sines[s]!;
    row[0] = 1;
    row[1] = x;
    row[2] = y;
    let value = theta[0]! + theta[1]! * x + theta[2]! * y;
    for (let j = 0; j < wings.size; j++) {
      const basis = wingRows[k * wings.size + j]!;
      row[3 + j] = basis;
      value += theta[3 + j]! * basis;
    }
    for (let d = 0; d < disks.length; d++) {
      const disk = disks[d]!;
      // Along the arc of a cell the distance from a displaced middle changes.
      const across = (disk.dx * sines[s]! - disk.dy * cosines[s]!) * arc;
      const width = table.width[i]!;
      const softness = Math.sqrt((width * width + across * across) / 12 + blur * blur);
      diskShare(disk, x, y, softness, share);
      value += disk.surface * share[0]!;
      let at = begins[d]!;
      row[at++] = share[0]!;
      if (disk.radiusFree) row[at++] = disk.surface * share[1]!;
      if (disk.holeFree) row[at++] = disk.surface * share[2]!;
      if (disk.placeFree) {
        row[at++] = disk.surface * share[3]!;
        row[at++] = disk.surface * share[4]!;
      }
    }
    return value;
  };

  const weights = new Float64Array(table.counts.length);
  const diskLight = new Float64Array(table.counts.length);
  const model = new Float64Array(table.counts.length);
  for (let k = 0; k < weights.length; k++) {
    const start = table.median[Math.floor(k / table.sectors)]! + table.light[k]!;
    weights[k] = robustWeight(table.counts[k]!, start, table.variance[k]!, 10);
  }
  const accumulate = (theta: Float64Array): { matrix: Float64Array; right: Float64Array; sum: number } => {
    const disks = disksOf(theta);
    const matrix = new Float64Array(p * p);
    const right = new Float64Array(p);
    let sum = 0;
    for (let k = 0; k < weights.length; k++) {
      const weight = weights[k]!;
      if (weight === 0) continue;
      const i = Math.floor(k / table.sectors);
      const value = evaluate(k, i, k - i * table.sectors, theta, disks);
      model[k] = value;
      const residual = table.counts[k]! - value;
      sum += weight * residual * residual;
      addTo(matrix, right, row, weight, residual, p);
    }
    return { matrix, right, sum };
  };

  // Three times: fit with the weights at hand, then weigh each cell by what the fit leaves of it.
  for (let pass = 0; pass < 3; pass++) {
    let here = accumulate(parameters);
    let damping = 1e-4;
    for (let round = 0; round < ROUNDS; round++) {
      const step = solveSymmetric(here.matrix, here.right, p, damping);
      if (step === null) break;
      const trial = bounded(
        parameters.map((value, j) => value + step[j]!),
        starts,
        begins,
        table,
      );
      const there = accumulate(trial);
      if (there.sum <= here.sum) {
        const gain = here.sum - there.sum;
        parameters = trial;
        here = there;
        damping = Math.max(1e-9, damping / 5);
        if (gain < NEGLIGIBLE) break;
      } else {
        damping *= 8;
        if (damping > 1e6) break;
      }
    }
    const disks = disksOf(parameters);
    for (let k = 0; k < weights.length; k++) {
      const i = Math.floor(k / table.sectors);
      if (Number.isNaN(table.counts[k]!)) continue;
      model[k] = evaluate(k, i, k - i * table.sectors, parameters, disks);
      diskLight[k] = disks.reduce((light, disk, d) => light + disk.surface * row[begins[d]!]!, 0);
      if (pass < 2) weights[k] = robustWeight(table.counts[k]!, model[k]!, table.variance[k]!, BIWEIGHT);
    }
  }

  const disks = disksOf(parameters);
  const matrices = Array.from({ length: table.sectors }, () => new Float64Array(p * p));
  const scores = Array.from({ length: table.sectors }, () => new Float64Array(p));
  const ringScores = Array.from({ length: n }, () => new Float64Array(p));
  const ringResidual = new Float64Array(n);
  const ringUncertainty = new Float64Array(n);
  const wingLight = new Float64Array(n);
  let sum = 0;
  let cells = 0;
  for (let i = 0; i < n; i++) {
    let total = 0;
    let used = 0;
    for (let s = 0; s < table.sectors; s++) {
      const k = i * table.sectors + s;
      const weight = weights[k]!;
      if (weight === 0) continue;
      const value = evaluate(k, i, s, parameters, disks);
      const residual = table.counts[k]! - value;
      addTo(matrices[s]!, scores[s]!, row, weight, residual, p);
      for (let j = 0; j < p; j++) ringScores[i]![j]! += weight * row[j]!;
      for (let j = 0; j < wings.size; j++) wingLight[i]! += parameters[3 + j]! * row[3 + j]!;
      ringResidual[i]! += weight * residual;
      total += weight;
      used++;
      sum += weight * residual * residual;
      cells++;
    }
    ringResidual[i]! /= total || 1;
    wingLight[i]! /= used || 1;
    ringUncertainty[i] = total > 0 ? 1 / Math.sqrt(total) : Number.POSITIVE_INFINITY;
  }
  return {
    disks,
    parameters,
    begins,
    matrices,
    scores,
    ringScores,
    sum,
    cells,
    ringResidual,
    ringUncertainty,
    wingLight,
    model,
    diskLight,
  };
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
    const inner = start.holeFree ? theta[at++]! : start.inner;
    const dx = start.placeFree ? theta[at++]! : start.dx;
    const dy = start.placeFree ? theta[at]! : start.dy;
    return { ...start, surface, outer, inner, dx, dy };
  });
}

function robustWeight(value: number, expected: number, variance: number, reach: number): number {
  if (Number.isNaN(value) || !(variance > 0)) return 0;
  const u = (value - expected) / (reach * Math.sqrt(variance));
  return Math.abs(u) >= 1 ? 0 : (1 - u * u) ** 2 / variance;
}

/** Adds a row to normal equations; the lower half of the matrix is filled. */
function addTo(
  matrix: Float64Array,
  right: Float64Array,
  row: Float64Array,
  weight: number,
  residual: number,
  p: number,
): void {
  for (let a = 0; a < p; a++) {
    const factor = weight * row[a]!;
    if (factor === 0) continue;
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
