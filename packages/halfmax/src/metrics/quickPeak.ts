import { packedSlope, packedValues, packStretch } from './packedStretch.js';
import { contenders, patterns, peakPatterns, thinnedWeight } from './smoothedPeak.js';
import type { SmoothedStretch } from './smoothedStretch.js';

/** Where quick readers put what they find. */
export const PEAK_HEIGHT = 0;
export const PEAK_NM = 1;
export const BLUE_NM = 2;
export const RED_NM = 3;

/** Numbers that a cell's cubic is kept as: its value at 0 and the factors of t, t squared and t cubed. */
const TERMS = 4;

/**
 * The peak as {@link peakFinder} finds it, for many draws: maxima of the cubics in closed form, nothing made anew.
 *
 * @param stretch - the smoothed top
 * @param standardUncertainty - per pixel
 * @returns a function of pixel values that writes height and place; they are those of `peakFinder` but for what its
 *   iterations leave
 */
export function quickPeak(
  stretch: SmoothedStretch,
  standardUncertainty: Float64Array,
): (values: Float64Array, out: Float64Array) => void {
  const { atNm } = stretch;
  const n = atNm.length;
  const packed = packStretch(stretch, standardUncertainty.length);
  const { noise, noiseSlopes, reach, noisy } = peakPatterns(stretch, standardUncertainty);
  const noiseTerms = patternTerms(atNm, noise, noiseSlopes);
  const heights = new Float64Array(n);
  const slopes = new Float64Array(n);
  const terms = new Float64Array(TERMS * n);
  const knownSlope = new Uint8Array(n);
  const knownCell = new Uint8Array(n);
  const near = new Int32Array(n);
  // In an array, since a number handed back would have to be boxed.
  const sum = new Float64Array(1);
  let pixels = standardUncertainty;

  return (values, out) => {
    pixels = values;
    packedValues(packed, 0, n, values, heights);
    knownSlope.fill(0);
    knownCell.fill(0);
    let top = 0;
    for (let k = 1; k < n; k++) if (heights[k]! > heights[top]!) top = k;
    needSlope(top);
    const cell = slopes[top]! > 0 ? top : top - 1;
    let maximum = heights[top]!;
    let place = atNm[top]!;
    if (cell >= 0 && cell + 1 < n) {
      needCell(cell);
      const c = TERMS * cell;
      const c1 = terms[c + 1]!;
      const c2 = terms[c + 2]!;
      const c3 = terms[c + 3]!;
      if (c1 > 0 && c1 + 2 * c2 + 3 * c3 < 0) {
        const t = turnOf(c1, c2, c3);
        place += (cell - top + t) * (atNm[cell + 1]! - atNm[cell]!);
        maximum = terms[c]! + t * (c1 + t * (c2 + t * c3));
      }
    }
    out[PEAK_NM] = place;
    out[PEAK_HEIGHT] = maximum;
    if (!noisy) return;
    const count = contenders(heights, reach, top, near);
    sum[0] = 0;
    for (let at = 0; at < noise.length; at += n) {
      let above = top;
      let below = top;
      let highest = heights[top]! + noise[at + top]!;
      let lowest = heights[top]! - noise[at + top]!;
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
      addThinned(above, 1, at);
      addThinned(below, -1, at);
    }
    out[PEAK_HEIGHT] = maximum + thinnedWeight * (sum[0]! / (2 * patterns) - maximum);
  };

  /** Works out the slope at a place, once a call. */
  function needSlope(k: number): void {
    if (knownSlope[k] === 1) return;
    slopes[k] = packedSlope(packed, k, pixels);
    knownSlope[k] = 1;
  }

  /** Works out the cubic between a place and the next, once a call. */
  function needCell(k: number): void {
    if (knownCell[k] === 1) return;
    needSlope(k);
    needSlope(k + 1);
    cubicTerms(heights[k]!, heights[k + 1]!, slopes[k]!, slopes[k + 1]!, atNm[k + 1]! - atNm[k]!, terms, k);
    knownCell[k] = 1;
  }

  /** Adds the height without a pattern where the curve with it is highest, the pattern taken away once more. */
  function addThinned(top: number, sign: number, at: number): void {
    needSlope(top);
    const cell = slopes[top]! + sign * noiseSlopes[at + top]! > 0 ? top : top - 1;
    if (cell < 0 || cell + 1 >= n) {
      sum[0]! += heights[top]! - sign * noise[at + top]!;
      return;
    }
    needCell(cell);
    const c = TERMS * cell;
    const p = TERMS * (at + cell);
    const c1 = terms[c + 1]!;
    const c2 = terms[c + 2]!;
    const c3 = terms[c + 3]!;
    const p1 = sign * noiseTerms[p + 1]!;
    const p2 = sign * noiseTerms[p + 2]!;
    const p3 = sign * noiseTerms[p + 3]!;
    if (!(c1 + p1 > 0 && c1 + p1 + 2 * (c2 + p2) + 3 * (c3 + p3) < 0)) {
      sum[0]! += heights[top]! - sign * noise[at + top]!;
      return;
    }
    const t = turnOf(c1 + p1, c2 + p2, c3 + p3);
    sum[0]! += terms[c]! - sign * noiseTerms[p]! + t * (c1 - p1 + t * (c2 - p2 + t * (c3 - p3)));
  }
}

/** The cubics of the patterns, pattern after pattern and cell after cell. */
function patternTerms(atNm: Float64Array, noise: Float64Array, noiseSlopes: Float64Array): Float64Array {
  const n = atNm.length;
  const terms = new Float64Array(TERMS * noise.length);
  for (let at = 0; at < noise.length; at += n) {
    for (let k = 0; k + 1 < n; k++) {
      const i = at + k;
      const step = atNm[k + 1]! - atNm[k]!;
      cubicTerms(noise[i]!, noise[i + 1]!, noiseSlopes[i]!, noiseSlopes[i + 1]!, step, terms, i);
    }
  }
  return terms;
}

/** Writes the terms of the cubic through values a and b with slopes before and after, `step` apart. */
function cubicTerms(
  a: number,
  b: number,
  before: number,
  after: number,
  step: number,
  out: Float64Array,
  cell: number,
): void {
  const da = before * step;
  const db = after * step;
  const at = TERMS * cell;
  out[at] = a;
  out[at + 1] = da;
  out[at + 2] = 3 * (b - a) - 2 * da - db;
  out[at + 3] = da + db - 2 * (b - a);
}

/** Where c1 t + c2 t^2 + c3 t^3, which rises at 0 and falls at 1, turns. */
function turnOf(c1: number, c2: number, c3: number): number {
  const root = Math.sqrt(Math.max(0, c2 * c2 - 3 * c1 * c3));
  // Of the two forms of the solution the one that takes no difference of like numbers.
  const t = c2 <= 0 ? c1 / (root - c2) : (c2 + root) / (-3 * c3);
  return Math.min(1, t);
}
