import type { Beam, IndexRange } from './types.js';

/**
 * Refuses a beam that cannot be.
 *
 * @param caller - name of the function that was called
 * @param beam - the beam
 * @throws {RangeError} the first value out of range, by name
 */
export function requireBeam(caller: string, beam: Beam): void {
  const { fNumber, centralObstruction = 0, pupil = 'uniform', chiefRayDeg = 0, tiltDeg = 0 } = beam;
  const { tiltDirectionDeg = 0, angleRule = 'sine' } = beam;
  const refuse = (rule: string, found: unknown): never => {
    throw new RangeError(`${caller} requires ${rule}, got ${String(found)}`);
  };
  if (!(fNumber >= 0.5)) refuse('an f-number of 0.5 or more', fNumber);
  if (!(centralObstruction >= 0 && centralObstruction < 1)) {
    refuse('a central obstruction from 0 to below 1', centralObstruction);
  }
  if (pupil !== 'uniform') {
    const edge = (pupil as { gaussianEdge?: number } | null)?.gaussianEdge;
    if (!(edge !== undefined && edge > 0 && edge <= 1)) refuse('a gaussianEdge above 0 and at most 1', edge);
  }
  if (angleRule !== 'sine' && angleRule !== 'tangent') refuse("'sine' or 'tangent'", angleRule);
  if (!(Math.abs(chiefRayDeg) <= 45)) refuse('a chief ray within 45 degrees', chiefRayDeg);
  if (!(Math.abs(tiltDeg) <= 45)) refuse('a tilt within 45 degrees', tiltDeg);
  if (!Number.isFinite(tiltDirectionDeg)) refuse('a finite direction of the tilt', tiltDirectionDeg);
}

/**
 * Refuses an effective index below 1 or above 5, or a range the wrong way round.
 *
 * @param caller - name of the function that was called
 * @param index - a number, or a range
 * @returns lowest and highest
 * @throws {RangeError} out of range
 */
export function requireIndex(caller: string, index: IndexRange): readonly [number, number] {
  const [low, high] = typeof index === 'number' ? [index, index] : index;
  if (!(low >= 1 && high <= 5 && low <= high)) {
    const found = typeof index === 'number' ? String(index) : `${low} to ${high}`;
    throw new RangeError(`${caller} requires an effective index from 1 to 5, lowest first, got ${found}`);
  }
  return [low, high];
}
