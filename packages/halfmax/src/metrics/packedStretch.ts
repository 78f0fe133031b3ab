import type { SmoothedStretch } from './smoothedStretch.js';

/** A stretch of the smoothed curve in few arrays, for reading it many times: every place has a window of one length. */
export interface PackedStretch {
  readonly atNm: Float64Array;
  /** Pixels in each window, those with weight 0 included. */
  readonly window: number;
  /** First pixel of each window. */
  readonly from: Int32Array;
  /** Weights of value and slope, window after window. */
  readonly value: Float64Array;
  readonly slope: Float64Array;
}

/**
 * Packs a stretch. Windows shorter than the longest are filled up with weights of 0, which changes no sum.
 *
 * @param stretch - the stretch
 * @param pixels - length of the curve
 * @returns the same stretch in few arrays
 */
export function packStretch(stretch: SmoothedStretch, pixels: number): PackedStretch {
  const { atNm, weights } = stretch;
  const window = weights.reduce((most, one) => Math.max(most, one.value.length), 0);
  const from = new Int32Array(weights.length);
  const value = new Float64Array(weights.length * window);
  const slope = new Float64Array(weights.length * window);
  weights.forEach((one, k) => {
    from[k] = Math.min(one.from, pixels - window);
    const offset = k * window + one.from - from[k]!;
    value.set(one.value, offset);
    slope.set(one.slope, offset);
  });
  return { atNm, window, from, value, slope };
}

/**
 * Smoothed values at a run of places.
 *
 * @param first - first place
 * @param end - place after the last
 * @param pixels - pixel values
 * @param out - out[k] is set for each place k of the run
 */
export function packedValues(
  packed: PackedStretch,
  first: number,
  end: number,
  pixels: Float64Array,
  out: Float64Array,
): void {
  const { window, from, value } = packed;
  let k = first;
  // Four sums side by side: each in the order of its pixels, none waiting for another.
  for (; k + 4 <= end; k += 4) {
    let a = 0;
    let b = 0;
    let c = 0;
    let d = 0;
    let w0 = k * window;
    let w1 = w0 + window;
    let w2 = w1 + window;
    let w3 = w2 + window;
    const p0 = from[k]! - w0;
    const p1 = from[k + 1]! - w0;
    const p2 = from[k + 2]! - w0;
    const p3 = from[k + 3]! - w0;
    for (const last = w0 + window; w0 < last; w0++, w1++, w2++, w3++) {
      a += value[w0]! * pixels[p0 + w0]!;
      b += value[w1]! * pixels[p1 + w0]!;
      c += value[w2]! * pixels[p2 + w0]!;
      d += value[w3]! * pixels[p3 + w0]!;
    }
    out[k] = a;
    out[k + 1] = b;
    out[k + 2] = c;
    out[k + 3] = d;
  }
  for (; k < end; k++) out[k] = weighted(value, k * window, window, pixels, from[k]!);
}

/** Smoothed slope at place `k`, per nm. */
export function packedSlope(packed: PackedStretch, k: number, pixels: Float64Array): number {
  return weighted(packed.slope, k * packed.window, packed.window, pixels, packed.from[k]!);
}

function weighted(
  weights: Float64Array,
  offset: number,
  window: number,
  pixels: Float64Array,
  from: number,
): number {
  let sum = 0;
  for (let i = 0; i < window; i++) sum += weights[offset + i]! * pixels[from + i]!;
  return sum;
}
