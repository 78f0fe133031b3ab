import { normalQuantile } from '../numeric/index.js';
import type { SmoothedPeak } from './smoothedPeak.js';
import { type SmoothedStretch, stretchSlope, stretchValue } from './smoothedStretch.js';

/** A slope so many of its standard uncertainties from 0 goes up or down: 95 % of those of a level place do not. */
const clearSlope = normalQuantile(0.975);
/** Another maximum of the smoothed top may be the highest when it is lower by so many standard uncertainties. */
const contends = 1.8;
/**
 * Standard uncertainties by which a place is lower than a maximum: beside the maximum, where the noise of both is one
 * and the same, and far from it, where each has its own.
 */
const lowerBeside = 0.95;
const lowerFar = 2.3;

/**
 * Where the highest place of a smoothed top may lie: the interval that holds, around every maximum that may be the
 * highest, the places that noise does not let be told from it, by slope or by height.
 *
 * @param top - the smoothed top
 * @param values - pixel values
 * @param standardUncertainty - per pixel, independent
 * @param peak - where the smoothed top is highest, and how high
 * @param beyondNm - how far the top may go on where the interval reaches its end
 * @returns first and last place, nm; the place itself twice where no pixel is uncertain
 * Source: common practice, no source. The three limits are set by simulation (peakInterval.test.ts): rippled, flat,
 * rounded and single-peaked tops in noise of 0.1 to 1 %. Of all intervals 95.9 % hold the peak of the smoothed top
 * without noise, of those of one top and noise 90 to 99 %. Cost: O(maxima x places x window).
 */
export function peakInterval(
  top: SmoothedStretch,
  values: Float64Array,
  standardUncertainty: Float64Array,
  { place, maximum }: Pick<SmoothedPeak, 'place' | 'maximum'>,
  beyondNm: number,
): readonly [number, number] {
  const { atNm } = top;
  const n = atNm.length;
  const heights = atNm.map((_, k) => stretchValue(top, k, values));
  const slopes = atNm.map((_, k) => stretchSlope(top, k, values));
  const slopeNoise = atNm.map((_, k) => noiseOf(top, k, standardUncertainty));
  let best = 0;
  for (let k = 1; k < n; k++) if (heights[k]! > heights[best]!) best = k;
  if (!(slopeNoise[best]! > 0)) return [place.atNm, place.atNm];
  let low = place.atNm;
  let high = place.atNm;
  for (let k = 0; k < n; k++) {
    const isMaximum =
      !(k > 0 && heights[k - 1]! > heights[k]!) && !(k + 1 < n && heights[k + 1]! > heights[k]!);
    if (!isMaximum) continue;
    const below = heights[best]! - heights[k]!;
    if (k !== best && below > contends * differenceNoise(top, best, k, standardUncertainty)) continue;
    low = Math.min(low, bySlope(k, -1), byHeight(k, -1));
    high = Math.max(high, bySlope(k, 1), byHeight(k, 1));
  }
  return [low <= atNm[0]! ? low - beyondNm : low, high >= atNm[n - 1]! ? high + beyondNm : high];

  /** From a maximum on to where the curve clearly goes down. */
  function bySlope(from: number, step: 1 | -1): number {
    const fall = (k: number): number => -step * slopes[k]! - clearSlope * slopeNoise[k]!;
    // the maximum lies up to a step before its highest place
    const start = Math.min(n - 1, Math.max(0, from - step));
    let k = start;
    while (k + step >= 0 && k + step < n && fall(k) <= 0) k += step;
    if (k === start || fall(k) <= 0) return atNm[k]!;
    const share = fall(k - step) / (fall(k - step) - fall(k));
    return atNm[k - step]! + share * (atNm[k]! - atNm[k - step]!);
  }

  /** From a maximum on to where the curve is clearly lower. */
  function byHeight(from: number, step: 1 | -1): number {
    const start = from === best ? place.atNm : atNm[from]!;
    const summit = from === best ? maximum : heights[from]!;
    let edge = start;
    let before = 0;
    let rate = 0;
    for (let k = from + step; k >= 0 && k < n; k += step) {
      const apart = Math.abs(atNm[k]! - atNm[from]!);
      const way = Math.abs(atNm[k]! - start);
      const between = differenceNoise(top, k, from, standardUncertainty);
      if (rate === 0) rate = between / apart;
      const alike = rate > 0 ? Math.min(1, between / (rate * apart)) : 1;
      // near the maximum the noise of a difference grows with the way, and the way is from the maximum itself
      const noise = between * (alike * (way / apart) + 1 - alike);
      const least = lowerFar + (lowerBeside - lowerFar) * alike;
      const fall = summit - heights[k]!;
      const over = fall - least * noise;
      // in the cell of the maximum the curve falls with the square of the way
      if (over > 0 && k === from + step) return start + (atNm[k]! - start) * ((least * noise) / fall);
      if (over > 0) return atNm[k - step]! + (atNm[k]! - atNm[k - step]!) * (before / (before - over));
      before = over;
      edge = atNm[k]!;
    }
    return edge;
  }
}

/** Standard uncertainty of the smoothed slope at a place. */
function noiseOf(top: SmoothedStretch, k: number, standardUncertainty: Float64Array): number {
  const { from, slope } = top.weights[k]!;
  let variance = 0;
  for (let i = 0; i < slope.length; i++) variance += (slope[i]! * standardUncertainty[from + i]!) ** 2;
  return Math.sqrt(variance);
}

/** Standard uncertainty of the difference of the smoothed heights at two places. */
function differenceNoise(
  top: SmoothedStretch,
  a: number,
  b: number,
  standardUncertainty: Float64Array,
): number {
  const first = top.weights[a]!;
  const second = top.weights[b]!;
  const start = Math.min(first.from, second.from);
  const end = Math.max(first.from + first.value.length, second.from + second.value.length);
  let variance = 0;
  for (let i = start; i < end; i++) {
    const weight = (first.value[i - first.from] ?? 0) - (second.value[i - second.from] ?? 0);
    variance += (weight * standardUncertainty[i]!) ** 2;
  }
  return Math.sqrt(variance);
}
