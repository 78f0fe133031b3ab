import type { RandomStream } from '../numeric/index.js';
import { type DiskShape, diskColumn } from './diskShape.js';
import { dot, type LeastSquares, leastSquares, takeOut } from './leastSquares.js';

/** A disk that could be there, as the rings would show it. */
export interface RawCandidate {
  readonly inner: number;
  readonly outer: number;
  /** Light in each ring for a surface brightness of 1, over the ring's standard deviation. */
  readonly column: Float64Array;
}

/** The same made ready for the search. */
export interface DiskCandidate {
  readonly inner: number;
  readonly outer: number;
  /** Its rings without what background and wings can imitate, of unit length. */
  readonly direction: Float64Array;
  /** Standard uncertainty of its surface brightness, counts a pixel. */
  readonly uncertainty: number;
}

/** Holes that are tried, as a share of the outer radius. */
const HOLES: readonly number[] = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
/** A disk of which background and wings imitate more than all but this share is not looked for. */
const LEAST_OWN_SHARE = 0.03;
/** Rings that must lie beyond a disk, to tell it from the background. */
const RINGS_BEYOND = 4;
const EULER = 0.5772156649015329;

/**
 * All centred disks that the rings could show.
 *
 * @param radius - of the rings, pixels
 * @param width - of the rings, pixels
 * @param variance - of the rings
 * @param blur - standard deviation of the edges, pixels
 * @returns candidates, possibly none
 *
 * Cost: O(rings^2).
 */
export function rawCandidates(
  radius: Float64Array,
  width: Float64Array,
  variance: Float64Array,
  blur: number,
): RawCandidate[] {
  const n = radius.length;
  const candidates: RawCandidate[] = [];
  const first = radius[0]! - width[0]! / 2;
  for (let i = 2; i < n - RINGS_BEYOND; i++) {
    const outer = radius[i]! + width[i]! / 2;
    let withoutHole = false;
    for (const hole of HOLES) {
      const hidden = hole * outer <= first + width[0]!;
      if (hidden && withoutHole) continue;
      if (hidden) withoutHole = true;
      const inner = hidden ? 0 : hole * outer;
      if (outer - inner < 2.5 * width[i]!) continue;
      const column = diskColumn({ inner, outer, dx: 0, dy: 0 }, radius, width, blur);
      for (let k = 0; k < n; k++) column[k]! /= Math.sqrt(variance[k]!);
      candidates.push({ inner, outer, column });
    }
  }
  return candidates;
}

/**
 * Holes that a disk taken as whole could have: dark disks within it.
 *
 * @param radius - of the rings, pixels
 * @param width - of the rings, pixels
 * @param variance - of the rings
 * @param blur - standard deviation of the edges, pixels
 * @param disk - taken as whole
 * @returns candidates whose `inner` is the hole's radius, possibly none
 */
export function rawHoles(
  radius: Float64Array,
  width: Float64Array,
  variance: Float64Array,
  blur: number,
  disk: DiskShape,
): RawCandidate[] {
  const holes: RawCandidate[] = [];
  for (let i = 1; i < radius.length; i++) {
    const inner = radius[i]! + width[i]! / 2;
    if (inner > 0.92 * disk.outer) break;
    const column = diskColumn({ ...disk, inner: 0, outer: inner }, radius, width, blur);
    for (let k = 0; k < column.length; k++) column[k]! /= -Math.sqrt(variance[k]!);
    holes.push({ inner, outer: disk.outer, column });
  }
  return holes;
}

/**
 * Takes out of each candidate what background, wings and known disks can imitate.
 *
 * @param raw - candidates
 * @param base - fit of background, wings and known disks
 * @returns those of which enough is left
 *
 * Cost: O(candidates x rings x columns).
 */
export function projectCandidates(raw: readonly RawCandidate[], base: LeastSquares): DiskCandidate[] {
  return raw.flatMap(({ inner, outer, column }) => {
    const direction = column.slice();
    const before = dot(direction, direction);
    takeOut(direction, base.orthonormal);
    const own = dot(direction, direction);
    if (!(own > LEAST_OWN_SHARE * before)) return [];
    const length = Math.sqrt(own);
    for (let k = 0; k < direction.length; k++) direction[k]! /= length;
    return [{ inner, outer, direction, uncertainty: 1 / length }];
  });
}

/**
 * The candidate that stands out most.
 *
 * @param candidates - at least one
 * @param residuals - weighted residuals of the rings
 * @returns the candidate and its surface brightness over its standard uncertainty
 */
export function bestCandidate(
  candidates: readonly DiskCandidate[],
  residuals: Float64Array,
): { candidate: DiskCandidate; significance: number } {
  let candidate = candidates[0]!;
  let significance = Number.NEGATIVE_INFINITY;
  for (const one of candidates) {
    const t = dot(one.direction, residuals);
    if (t > significance) {
      significance = t;
      candidate = one;
    }
  }
  return { candidate, significance };
}

/** The best disk together with the wings that suit it. */
export interface DiskScan {
  /** Powers in the wings with the disk. */
  readonly terms: number;
  /** Those that serve best without a further disk. */
  readonly termsWithout: number;
  readonly candidate: { readonly inner: number; readonly outer: number; readonly surface: number } | null;
  /** Root of the fall of Schwarz's criterion that the disk brings, its own cost left out. */
  readonly significance: number;
}

/**
 * Looks for the best disk under wings of every stiffness: wings free enough to imitate a disk pay for each of their
 * coefficients by Schwarz's criterion, with the disk and without it.
 *
 * @param radius - of the rings, pixels
 * @param counts - of the rings
 * @param variance - of the rings
 * @param choices - numbers of powers to try
 * @param columns - background, wings of so many powers, and known disks
 * @param raw - what to look for; nothing: only the wings are chosen
 * @returns the best disk and what it brings over the best wings without it
 *
 * Source: Schwarz, Ann. Stat. 6, 461 (1978).
 */
export function scanDisks(
  radius: Float64Array,
  counts: Float64Array,
  variance: Float64Array,
  choices: readonly number[],
  columns: (terms: number) => readonly Float64Array[],
  raw: readonly RawCandidate[],
): DiskScan {
  let without = Number.POSITIVE_INFINITY;
  let termsWithout = choices[0]!;
  let withDisk = Number.POSITIVE_INFINITY;
  let terms = choices[0]!;
  let candidate: DiskScan['candidate'] = null;
  const lengths = raw.map(({ column }) => dot(column, column));
  for (const choice of choices) {
    const base = leastSquares(columns(choice), counts, variance);
    if (base.orthonormal.length > radius.length / 2) continue;
    const score = base.sum + base.orthonormal.length * Math.log(radius.length);
    if (score < without) {
      without = score;
      termsWithout = choice;
    }
    for (let c = 0; c < raw.length; c++) {
      const { column, inner, outer } = raw[c]!;
      const along = dot(column, base.residuals);
      // Cheap test first: even without what the wings imitate it would not be better.
      if (along <= 0) continue;
      let own = lengths[c]!;
      for (const direction of base.orthonormal) own -= dot(column, direction) ** 2;
      if (!(own > LEAST_OWN_SHARE * lengths[c]!)) continue;
      const fall = (along * along) / own;
      if (score - fall < withDisk) {
        withDisk = score - fall;
        terms = choice;
        candidate = { inner, outer, surface: along / own };
      }
    }
  }
  const fall = candidate === null ? 0 : Math.max(0, without - withDisk);
  return { terms, termsWithout, candidate, significance: Math.sqrt(fall) };
}

/**
 * Significance that the best of all candidates reaches by noise alone with a given probability.
 *
 * @param candidates - that are searched
 * @param falseAlarm - probability, above 0 and below 1
 * @param draws - images of pure noise to simulate, >= 50
 * @param stream - random numbers
 * @returns standard deviations, about 3 to 5
 *
 * Source: law of the largest of many: Gumbel, Statistics of Extremes (1958), fitted by mean and standard deviation.
 * Cost: O(draws x candidates x rings).
 */
export function falseAlarmLevel(
  candidates: readonly DiskCandidate[],
  falseAlarm: number,
  draws: number,
  stream: RandomStream,
): number {
  const n = candidates[0]!.direction.length;
  // Neighbouring candidates are alike: every other outer radius gives the same largest to a few hundredths.
  const radii = [...new Set(candidates.map(({ outer }) => outer))];
  const kept = new Set(n > 120 ? radii.filter((_, k) => k % 2 === 0) : radii);
  const thinned = candidates.filter(({ outer }) => kept.has(outer));
  const noise = new Float64Array(n);
  let sum = 0;
  let squares = 0;
  for (let draw = 0; draw < draws; draw++) {
    for (let k = 0; k < n; k++) noise[k] = stream.normal();
    const { significance } = bestCandidate(thinned, noise);
    sum += significance;
    squares += significance * significance;
  }
  const mean = sum / draws;
  const scale = (Math.sqrt(Math.max(0, squares / draws - mean * mean)) * Math.sqrt(6)) / Math.PI;
  return mean - EULER * scale - scale * Math.log(-Math.log(1 - falseAlarm));
}
