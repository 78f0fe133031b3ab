import { type DiskShape, diskColumn } from './diskShape.js';
import { dot, type LeastSquares, takeOut } from './leastSquares.js';

/** A disk that could be there, as the rings would show it. */
export interface RawCandidate {
  readonly inner: number;
  readonly outer: number;
  /** Light in each ring for a surface brightness of 1; ready for a search, over the ring's standard deviation. */
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
      candidates.push({
        inner,
        outer,
        column: diskColumn({ inner, outer, dx: 0, dy: 0 }, radius, width, blur),
      });
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
  return disks.map(({ inner, outer, column }) => {
    const weighed = column.slice();
    for (let k = 0; k < weighed.length; k++) weighed[k]! *= roots[k]!;
    return { inner, outer, column: weighed };
  });
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
