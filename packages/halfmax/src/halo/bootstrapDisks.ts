import type { Measured } from '../metrics/index.js';
import { quantile, type RandomStream, studentQuantile } from '../numeric/index.js';
import { uncertaintyAlong } from './diskCovariance.js';
import { disksFrom } from './diskLayout.js';
import type { DiskStart } from './diskShape.js';
import type { Misfit } from './fitMisfit.js';
import type { AnsweringFit } from './fitResponse.js';
import { addTimes } from './leastSquares.js';
import { solveSymmetric } from './solveSymmetric.js';

/** Numbers of a disk with their uncertainty. Lengths in pixels. */
export interface DiskNumbers {
  /** Counts a pixel. */
  readonly surface: Measured;
  /** Counts in all. */
  readonly flux: Measured;
  readonly outer: Measured;
  /** Meaningless where the hole is not free. */
  readonly inner: Measured;
  readonly dx: Measured;
  readonly dy: Measured;
  /** Surface brightness over its standard uncertainty. */
  readonly significance: number;
}

const NORMAL_95 = 1.959963984540054;

/**
 * Uncertainties of fitted disks by drawing the sectors anew: each draw takes as many sectors as there are, some twice,
 * some not at all, and solves the normal equations once from the solution. Misfit of the rings and the unknown shape of
 * the edges are drawn with them.
 *
 * @param fit - as fitted
 * @param misfit - of its rings, drawn with each
 * @param draws - number of draws, >= 100
 * @param stream - random numbers
 * @returns one entry for each disk, with 95 % intervals
 *
 * Source: bootstrap: Efron, Ann. Stat. 7, 1 (1979); widened for the number of sectors by Student's law.
 * Cost: O(draws x (sectors x p^2 + p^3)).
 */
export function bootstrapDisks(
  fit: AnsweringFit,
  misfit: Misfit,
  draws: number,
  stream: RandomStream,
): DiskNumbers[] {
  const p = fit.parameters.length;
  const sectors = fit.matrices.length;
  const rings = fit.ringScores.map((score, i) => ({ score, sigma: Math.sqrt(misfit.extraVariance[i]!) }));
  const wrong = rings.filter(({ sigma }) => sigma > 0);
  const samples: DiskStart[][] = [];
  const matrix = new Float64Array(p * p);
  const right = new Float64Array(p);
  const times = new Int32Array(sectors);
  // The half of the matrices that is used, without gaps.
  const parts = fit.matrices.map((whole) => lowerHalf(whole, p));
  const half = new Float64Array((p * (p + 1)) / 2);
  for (let draw = 0; draw < draws; draw++) {
    times.fill(0);
    for (let s = 0; s < sectors; s++) times[Math.floor(stream.uniform() * sectors)]!++;
    half.fill(0);
    right.fill(0);
    for (let s = 0; s < sectors; s++) {
      const factor = times[s]!;
      if (factor === 0) continue;
      addTimes(half, factor, parts[s]!);
      addTimes(right, factor, fit.scores[s]!);
    }
    for (let a = 0, from = 0; a < p; from += ++a) matrix.set(half.subarray(from, from + a + 1), a * p);
    for (const { score, sigma } of wrong) addTimes(right, sigma * stream.normal(), score);
    addTimes(right, stream.normal(), fit.edgeScore);
    const drawn = solveSymmetric(matrix, right, p, 0);
    if (drawn === null) continue;
    addTimes(drawn, 1, fit.parameters);
    samples.push(disksFrom(drawn, fit.disks, fit.begins));
  }
  const along = uncertaintyAlong(fit, misfit);
  // 36 sectors are few: their own spread is known only so well.
  const widen = (studentQuantile(0.975, sectors - 1) / NORMAL_95) * Math.sqrt(sectors / (sectors - 1));
  return fit.disks.map((disk, d) => {
    const summary = (of: (one: DiskStart) => number): Measured => {
      const value = of(disk);
      if (samples.length < draws / 2) {
        return { value, standardUncertainty: Number.POSITIVE_INFINITY, interval95: [-Infinity, Infinity] };
      }
      // In order: the quantiles then find it so.
      const list = Float64Array.from(samples, (sample) => of(sample[d]!)).sort();
      const spread = deviation(list);
      // Sectors that happen to agree say no more than the noise of their pixels allows.
      const floor = along(gradientOf(fit, d, of));
      const factor = widen * Math.max(1, spread > 0 ? floor / spread : 1);
      return {
        value,
        standardUncertainty: Math.max(spread, floor),
        interval95: [
          value + factor * (quantile(list, 0.025) - value),
          value + factor * (quantile(list, 0.975) - value),
        ],
      };
    };
    const surface = summary((one) => one.surface);
    return {
      surface,
      flux: summary(diskFlux),
      outer: summary((one) => one.outer),
      inner: summary((one) => one.inner),
      dx: summary((one) => one.dx),
      dy: summary((one) => one.dy),
      significance: disk.surface / surface.standardUncertainty,
    };
  });
}

/** Lower half of a square, row after row without gaps. */
function lowerHalf(whole: Float64Array, p: number): Float64Array {
  const half = new Float64Array((p * (p + 1)) / 2);
  for (let a = 0, to = 0; a < p; to += ++a) half.set(whole.subarray(a * p, a * p + a + 1), to);
  return half;
}

/** Derivatives of a number of one disk by the parameters of the fit, by small steps to both sides. */
function gradientOf(fit: AnsweringFit, d: number, of: (one: DiskStart) => number): Float64Array {
  return fit.parameters.map((value, j) => {
    if (j < fit.begins[d]! || j >= (fit.begins[d + 1] ?? fit.parameters.length)) return 0;
    const step = 1e-5 * Math.max(1e-3, Math.abs(value));
    const at = (moved: number): number => {
      const parameters = fit.parameters.slice();
      parameters[j] = moved;
      return of(disksFrom(parameters, fit.disks, fit.begins)[d]!);
    };
    return (at(value + step) - at(value - step)) / (2 * step);
  });
}

/**
 * Light of a uniform disk with a hole.
 *
 * @param disk - surface brightness in counts a pixel, radii in pixels
 * @returns counts
 * @example
 * Math.round(diskFlux({ surface: 2, inner: 3, outer: 5 })); // => 101
 */
export function diskFlux(disk: Pick<DiskStart, 'surface' | 'inner' | 'outer'>): number {
  return Math.PI * disk.surface * (disk.outer * disk.outer - disk.inner * disk.inner);
}

function deviation(list: Float64Array): number {
  const mean = list.reduce((sum, value) => sum + value, 0) / list.length;
  return Math.sqrt(list.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, list.length - 1));
}
