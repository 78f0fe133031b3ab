import { median } from '../numeric/median.js';
import { medianFrame } from './medianFrame.js';
import type { NoiseModel } from './types.js';

/** A value this many standard deviations above its fellows is a hit. */
const hitDeviations = 8;
/** A hit is no wider than this, pixels; a wider rise is a change of the light. */
const widestHit = 4;
/** More pixels than this, in a frame of so many, are no hit but a change of the frame as a whole. */
const mostPixels = (pixels: number): number => Math.max(widestHit, pixels / 100);
/** Light moved by this much on a steep flank is no hit, pixels. */
const slopeAllowancePixels = 0.3;
/** Above so many frames, the median of all stands for the median of the fellows. */
const manyFrames = 12;

/**
 * Pixels that a particle struck: far above the same pixel of the other frames, alone or with few neighbours.
 *
 * Each frame is compared with the median of its fellows, scaled by the median ratio of the lit pixels around, so
 * that a lamp or a line that grew brighter is not a hit, and allowing for a shift of 0.3 px on flanks.
 *
 * @param frames - counts above dark of one entry; NaN where undefined
 * @param noise - variance of a pixel against its level
 * @param ownVariance - what single pixels have in addition, counts^2: unstable and warm ones
 * @returns by index of the frame, the pixels that were hit, ascending; frames without hits are absent
 * Source: limits (8 standard deviations, 4 pixels) are common practice, no source.
 */
export function findHits(
  frames: readonly Float64Array[],
  noise: Pick<NoiseModel, 'readVariance' | 'gain'>,
  ownVariance?: Float64Array,
): Map<number, number[]> {
  const found = new Map<number, number[]>();
  const n = frames.length;
  if (n < 2) return found;
  const all = n > manyFrames ? medianFrame(frames) : null;
  // the median of n values is less certain than their mean by pi/2
  const widen = n === 2 ? 2 : 1 + Math.PI / 2 / (n - 1);
  frames.forEach((frame, k) => {
    const reference = all ?? medianFrame(frames, k);
    const pixels = hitsAgainst(frame, reference, noise, widen, ownVariance);
    if (pixels.length > 0 && pixels.length <= mostPixels(frame.length)) found.set(k, pixels);
  });
  return found;
}

function hitsAgainst(
  frame: Float64Array,
  reference: Float64Array,
  noise: Pick<NoiseModel, 'readVariance' | 'gain'>,
  widen: number,
  ownVariance: Float64Array | undefined,
): number[] {
  const n = frame.length;
  let top = 0;
  for (const value of reference) if (value > top) top = value;
  // a millionth of the light stands in for noise where there is none
  const least = (1e-6 * top) ** 2;
  const sigma = (i: number): number =>
    Math.sqrt(
      Math.max(
        least,
        widen * (noise.readVariance + noise.gain * Math.max(0, reference[i]!) + (ownVariance?.[i] ?? 0)),
      ),
    );
  const excess = (i: number): number => {
    const ratio = localRatio(frame, reference, i, sigma);
    const here = reference[i]!;
    const left = reference[Math.max(0, i - 1)]!;
    const right = reference[Math.min(n - 1, i + 1)]!;
    const slope = Math.max(Math.abs(here - left) || 0, Math.abs(right - here) || 0);
    return (frame[i]! - ratio * here - slopeAllowancePixels * slope) / sigma(i);
  };
  const out: number[] = [];
  let i = 0;
  while (i < n) {
    // the full comparison is only made where the plain one gives cause
    if (!(Math.abs(frame[i]! - reference[i]!) > hitDeviations * sigma(i)) || !(excess(i) > hitDeviations)) {
      i++;
      continue;
    }
    let from = i;
    let to = i;
    while (from > 0 && excess(from - 1) > hitDeviations / 2) from--;
    while (to + 1 < n && excess(to + 1) > hitDeviations / 2) to++;
    if (to - from + 1 <= widestHit) for (let p = from; p <= to; p++) out.push(p);
    i = to + 1;
  }
  return out;
}

/** Median ratio of frame to reference over the lit pixels within 4 pixels; 1 where fewer than 3 are lit. */
function localRatio(
  frame: Float64Array,
  reference: Float64Array,
  at: number,
  sigma: (i: number) => number,
): number {
  const ratios: number[] = [];
  for (let i = Math.max(0, at - 4); i <= Math.min(frame.length - 1, at + 4); i++) {
    if (reference[i]! > 5 * sigma(i) && !Number.isNaN(frame[i]!)) ratios.push(frame[i]! / reference[i]!);
  }
  return ratios.length < 3 ? 1 : median(ratios);
}
