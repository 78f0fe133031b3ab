import { type DiskShape, diskColumn } from './diskShape.js';
import { dot, dotFrom, type LeastSquares, takeOut } from './leastSquares.js';

/** A disk that could be there, as the rings would show it. */
export interface RawCandidate {
  readonly inner: number;
  readonly outer: number;
  /** First ring that its light reaches. */
  readonly first: number;
  /** Light in each ring from that one on for a surface brightness of 1; ready for a search, over the ring's standard deviation. */
  readonly column: Float64Array;
}

/** A disk that would be seen. */
export interface DiskCandidate extends RawCandidate {
  /** Length of what background and wings cannot imitate of its column. */
  readonly own: number;
}

/** Holes that are tried, as a share of the outer radius. */
const HOLES: readonly number[] = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
/** A disk of which background and wings imitate more than all but this share is not looked for. */
export const LEAST_OWN_SHARE = 0.03;
/** Rings that must lie beyond a disk, to tell it from the background. */
const RINGS_BEYOND = 4;

/**
 * All centred disks that the rings could show.
 *
 * @param radius - of the rings, pixels
 * @param width - of the rings, pixels
 * @param blur - softness of the edges, pixels
 * @returns candidates with the light that they bring to each ring, possibly none
 *
 * Cost: O(rings^2).
 */
export function candidateDisks(radius: Float64Array, width: Float64Array, blur: number): RawCandidate[] {
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
      candidates.push(lit(inner, outer, diskColumn({ inner, outer, dx: 0, dy: 0 }, radius, width, blur)));
    }
  }
  return candidates;
}

/**
 * The same disks over the noise of the rings.
 *
 * @param disks - with the light that they bring to each ring
 * @param variance - of the rings
 * @returns candidates for a search
 */
export function rawCandidates(disks: readonly RawCandidate[], variance: Float64Array): RawCandidate[] {
  const roots = variance.map((value) => 1 / Math.sqrt(value));
  return disks.map(({ inner, outer, first, column }) => {
    const weighed = column.slice();
    for (let k = 0; k < weighed.length; k++) weighed[k]! *= roots[first + k]!;
    return { inner, outer, first, column: weighed };
  });
}

/** A candidate with the rings that its light reaches: most disks of a search reach few of them. */
function lit(inner: number, outer: number, whole: Float64Array): RawCandidate {
  let first = 0;
  let end = whole.length;
  while (first < end && whole[first] === 0) first++;
  while (end > first && whole[end - 1] === 0) end--;
  return { inner, outer, first, column: whole.slice(first, end) };
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
    holes.push(lit(inner, disk.outer, column));
  }
  return holes;
}

/**
 * Candidates of which background, wings and known disks leave enough to be seen.
 *
 * @param raw - candidates
 * @param base - fit of background, wings and known disks
 * @returns those of which enough is left
 *
 * Cost: O(candidates x rings x columns).
 */
export function visibleDisks(raw: readonly RawCandidate[], base: LeastSquares): DiskCandidate[] {
  const visible: DiskCandidate[] = [];
  for (const candidate of raw) {
    const { first, column } = candidate;
    const whole = dot(column, column);
    const least = LEAST_OWN_SHARE * whole;
    const own = ownSquare(column, first, base.orthonormal, whole, least);
    if (own > least) visible.push({ ...candidate, own: Math.sqrt(own) });
  }
  return visible;
}

/**
 * Square of the length of what orthonormal columns leave of a candidate's.
 *
 * @param column - of the candidate
 * @param first - ring at which it begins
 * @param orthonormal - columns over all rings
 * @param whole - square of the column's own length
 * @param least - once no more than this is left, no further columns are taken out
 * @returns what is left
 */
export function ownSquare(
  column: Float64Array,
  first: number,
  orthonormal: readonly Float64Array[],
  whole: number,
  least: number,
): number {
  let own = whole;
  for (const direction of orthonormal) {
    const along = dotFrom(column, direction, first);
    own -= along * along;
    if (!(own > least)) break;
  }
  return own;
}

/**
 * The rings of a candidate without what background, wings and known disks can imitate.
 *
 * @param candidate - that would be seen
 * @param base - fit of background, wings and known disks
 * @returns of unit length, a number for each ring
 */
export function ownDirection({ first, column, own }: DiskCandidate, base: LeastSquares): Float64Array {
  const direction = new Float64Array(base.residuals.length);
  direction.set(column, first);
  takeOut(direction, base.orthonormal);
  for (let k = 0; k < direction.length; k++) direction[k]! /= own;
  return direction;
}
