import { randomStream } from '../numeric/index.js';
import { packedSlope, packedValues, packStretch } from './packedStretch.js';
import type { PlaceOnStretch } from './smoothedCrossing.js';
import type { SmoothedStretch } from './smoothedStretch.js';
import { cubicSlope, cubicValue, stretchSlope, stretchValue } from './smoothedStretch.js';

/** How many noise patterns, each used with both signs, tell place and height of the peak apart. */
export const patterns = 8;
/**
 * Weight of the thinned height against the plain maximum. The one errs downwards, the other upwards; with this
 * weight the peak of rounded and flat tops stays, on average, between -0.5 and +0.3 standard uncertainties at
 * 0.3 % noise, up to +0.5 at 1 %.
 */
export const thinnedWeight = 0.7;
/** Fixed: the patterns are part of the method, so that the same curve always gives the same peak. */
const patternSeed = 1;

/** The peak: its height without the upward pull of noise, and where the smoothed curve is highest. */
export interface SmoothedPeak {
  readonly height: number;
  /** Height of the smoothed curve at its highest place, pulled upwards by noise. */
  readonly maximum: number;
  readonly place: PlaceOnStretch;
  /** Root mean square way, nm, by which noise as large as the curve's own moves the place. */
  readonly placeSpreadNm: number;
}

/** The patterns on a stretch: value and slope of each at each place, pattern after pattern. */
export interface PeakPatterns {
  /** False where no pixel is uncertain: there are no patterns then. */
  readonly noisy: boolean;
  readonly noise: Float64Array;
  readonly noiseSlopes: Float64Array;
  /** Largest value of any pattern, of either sign, at each place. */
  readonly reach: Float64Array;
}

/** Works out the patterns of a stretch once. */
export function peakPatterns(stretch: SmoothedStretch, standardUncertainty: Float64Array): PeakPatterns {
  const n = stretch.atNm.length;
  const noisy = standardUncertainty.some((u) => u > 0);
  const noise = new Float64Array(noisy ? patterns * n : 0);
  const noiseSlopes = new Float64Array(noise.length);
  const reach = new Float64Array(n);
  const stream = randomStream(patternSeed);
  for (let p = 0; noisy && p < patterns; p++) {
    const pattern = standardUncertainty.map((u) => u * stream.normal());
    for (let k = 0; k < n; k++) {
      noise[p * n + k] = stretchValue(stretch, k, pattern);
      noiseSlopes[p * n + k] = stretchSlope(stretch, k, pattern);
      reach[k] = Math.max(reach[k]!, Math.abs(noise[p * n + k]!));
    }
  }
  return { noisy, noise, noiseSlopes, reach };
}

/**
 * Makes a function that finds the peak of a smoothed top for any values on the same pixels.
 *
 * The highest place of a noisy curve is where the noise is high, so its height is biased upwards, on a flat
 * top by about one standard uncertainty. Against this, a pattern of noise as large as the curve's own is added
 * to look for the place and taken away to read the height there: the noise of the two is then independent, and
 * the height, averaged over patterns of both signs, errs at most downwards. The peak is a weighted mean of both.
 *
 * @param stretch - the smoothed top
 * @param standardUncertainty - per pixel; where all are 0 the plain maximum is the peak
 * @returns a function of the pixel values
 * Source: data thinning, A. Neufeld et al., J. Mach. Learn. Res. 25, 57 (2024), from memory. Cost per call: O(places x window).
 */
export function peakFinder(
  stretch: SmoothedStretch,
  standardUncertainty: Float64Array,
): (values: Float64Array) => SmoothedPeak {
  const { atNm } = stretch;
  const n = atNm.length;
  const packed = packStretch(stretch, standardUncertainty.length);
  const { noise, noiseSlopes, reach, noisy } = peakPatterns(stretch, standardUncertainty);
  const heights = new Float64Array(n);
  const slopes = new Float64Array(n);
  const known = new Uint8Array(n);
  const near = new Int32Array(n);
  let pixels = standardUncertainty;

  return (values) => {
    pixels = values;
    packedValues(packed, 0, n, values, heights);
    known.fill(0);
    let top = 0;
    for (let k = 1; k < n; k++) if (heights[k]! > heights[top]!) top = k;
    const plain = placeNear(top, 0, 0);
    const maximum = heightAt(plain, 0, 0);
    if (!noisy) return { height: maximum, maximum, place: plain, placeSpreadNm: 0 };
    const count = contenders(heights, reach, top, near);
    let sum = 0;
    let moved = 0;
    for (let at = 0; at < noise.length; at += n) {
      let above = 0;
      let below = 0;
      let highest = Number.NEGATIVE_INFINITY;
      let lowest = Number.NEGATIVE_INFINITY;
      for (let j = 0; j < count; j++) {
        const k = near[j]!;
        const added = heights[k]! + noise[at + k]!;
        const taken = heights[k]! - noise[at + k]!;
        if (added > highest) {
          highest = added;
          above = k;
        }
        if (taken > lowest) {
          lowest = taken;
          below = k;
        }
      }
      const first = placeNear(above, 1, at);
      moved += (first.atNm - plain.atNm) ** 2;
      sum += heightAt(first, -1, at);
      const second = placeNear(below, -1, at);
      moved += (second.atNm - plain.atNm) ** 2;
      sum += heightAt(second, 1, at);
    }
    const thinned = sum / (2 * patterns);
    const height = maximum + thinnedWeight * (thinned - maximum);
    return { height, maximum, place: plain, placeSpreadNm: Math.sqrt(moved / (2 * patterns)) };
  };

  /** Height with a share of the pattern that begins at `at`. */
  function heightOf(k: number, share: number, at: number): number {
    return share === 0 ? heights[k]! : heights[k]! + share * noise[at + k]!;
  }

  function slopeOf(k: number, share: number, at: number): number {
    if (known[k] === 0) {
      slopes[k] = packedSlope(packed, k, pixels);
      known[k] = 1;
    }
    return share === 0 ? slopes[k]! : slopes[k]! + share * noiseSlopes[at + k]!;
  }

  function heightAt({ k, t }: PlaceOnStretch, share: number, at: number): number {
    if (t === 0) return heightOf(k, share, at);
    const step = atNm[k + 1]! - atNm[k]!;
    const before = slopeOf(k, share, at) * step;
    const after = slopeOf(k + 1, share, at) * step;
    return cubicValue(heightOf(k, share, at), heightOf(k + 1, share, at), before, after, t);
  }

  /** Highest place near the highest node: the maximum of the cubic on that side of it where the curve rises. */
  function placeNear(top: number, share: number, at: number): PlaceOnStretch {
    const cell = slopeOf(top, share, at) > 0 ? top : top - 1;
    if (cell < 0 || cell + 1 >= n) return { atNm: atNm[top]!, k: top, t: 0 };
    const step = atNm[cell + 1]! - atNm[cell]!;
    const a = heightOf(cell, share, at);
    const b = heightOf(cell + 1, share, at);
    const da = slopeOf(cell, share, at) * step;
    const db = slopeOf(cell + 1, share, at) * step;
    if (!(da > 0 && db < 0)) return { atNm: atNm[top]!, k: top, t: 0 };
    let low = 0;
    let high = 1;
    let atLow = da;
    let atHigh = db;
    let t = da / (da - db);
    for (let i = 0; i < 30; i++) {
      const here = cubicSlope(a, b, da, db, t);
      if (here > 0) {
        low = t;
        atLow = here;
      } else {
        high = t;
        atHigh = here;
      }
      const next = low + ((high - low) * atLow) / (atLow - atHigh);
      if (!(next > low && next < high) || Math.abs(next - t) < 1e-9) break;
      t = next;
    }
    return { atNm: atNm[cell]! + t * step, k: cell, t };
  }
}

/**
 * Places that a pattern may make the highest: those that their largest pattern lifts as high as the smallest leaves the
 * place that is highest without.
 *
 * @returns their count; their numbers stand in `out`, ascending
 */
export function contenders(heights: Float64Array, reach: Float64Array, top: number, out: Int32Array): number {
  // The slack is for rounding.
  const least = heights[top]! - reach[top]! - 1e-12 * Math.abs(heights[top]!);
  let count = 0;
  for (let k = 0; k < heights.length; k++) if (heights[k]! + reach[k]! >= least) out[count++] = k;
  return count;
}
