import { packedSlope, packedValues, packStretch } from './packedStretch.js';
import { contenders, patterns, peakPatterns, thinnedWeight } from './smoothedPeak.js';
import { cubicValue, type SmoothedStretch } from './smoothedStretch.js';

/** Where quick readers put what they find. */
export const PEAK_HEIGHT = 0;
export const PEAK_NM = 1;
export const BLUE_NM = 2;
export const RED_NM = 3;

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
  const heights = new Float64Array(n);
  const slopes = new Float64Array(n);
  const known = new Uint8Array(n);
  const near = new Int32Array(n);
  const sum = new Float64Array(1);
  let pixels = standardUncertainty;

  return (values, out) => {
    pixels = values;
    packedValues(packed, 0, n, values, heights);
    known.fill(0);
    let top = 0;
    for (let k = 1; k < n; k++) if (heights[k]! > heights[top]!) top = k;
    need(top);
    const cell = slopes[top]! > 0 ? top : top - 1;
    let maximum = heights[top]!;
    let place = atNm[top]!;
    if (cell >= 0 && cell + 1 < n) {
      const step = atNm[cell + 1]! - atNm[cell]!;
      need(cell);
      need(cell + 1);
      const da = slopes[cell]! * step;
      const db = slopes[cell + 1]! * step;
      if (da > 0 && db < 0) {
        const t = turnOf(heights[cell + 1]! - heights[cell]!, da, db);
        place = atNm[cell]! + t * step;
        maximum = cubicValue(heights[cell]!, heights[cell + 1]!, da, db, t);
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
  function need(k: number): void {
    if (known[k] === 1) return;
    slopes[k] = packedSlope(packed, k, pixels);
    known[k] = 1;
  }

  /** Adds the height without a pattern where the curve with it is highest, the pattern taken away once more. */
  function addThinned(top: number, sign: number, at: number): void {
    need(top);
    const cell = slopes[top]! + sign * noiseSlopes[at + top]! > 0 ? top : top - 1;
    const plain = heights[top]! - sign * noise[at + top]!;
    if (cell < 0 || cell + 1 >= n) {
      sum[0]! += plain;
      return;
    }
    need(cell);
    need(cell + 1);
    const step = atNm[cell + 1]! - atNm[cell]!;
    const left = sign * noise[at + cell]!;
    const right = sign * noise[at + cell + 1]!;
    const leftSlope = sign * noiseSlopes[at + cell]!;
    const rightSlope = sign * noiseSlopes[at + cell + 1]!;
    const a = heights[cell]!;
    const b = heights[cell + 1]!;
    const da = slopes[cell]!;
    const db = slopes[cell + 1]!;
    const rise = (da + leftSlope) * step;
    const fall = (db + rightSlope) * step;
    if (!(rise > 0 && fall < 0)) {
      sum[0]! += plain;
      return;
    }
    const t = turnOf(b + right - (a + left), rise, fall);
    sum[0]! += cubicValue(a - left, b - right, (da - leftSlope) * step, (db - rightSlope) * step, t);
  }
}

/** Where a cubic that rises with slope da at 0 and falls with db at 1 turns; `gain` is its value at 1 less that at 0. */
function turnOf(gain: number, da: number, db: number): number {
  const bend = 3 * (da + db) - 6 * gain;
  const linear = 6 * gain - 4 * da - 2 * db;
  const root = Math.sqrt(Math.max(0, linear * linear - 4 * bend * da));
  const t = linear <= 0 ? (2 * da) / (root - linear) : (linear + root) / (-2 * bend);
  return Math.min(1, t);
}
