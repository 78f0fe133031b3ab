import { type PackedStretch, packedSlope, packedValues, packStretch } from './packedStretch.js';
import type { SmoothedStretch } from './smoothedStretch.js';

/** A place on the smoothed curve: between places `k` and `k + 1` of its stretch, at share `t`. */
export interface PlaceOnStretch {
  readonly atNm: number;
  readonly k: number;
  readonly t: number;
}

/**
 * Where the smoothed curve crosses a level.
 *
 * @param stretch - the smoothed curve
 * @param values - pixel values
 * @param level - the level
 * @param rising - true for a crossing from below to above with growing wavelength
 * @param pick - which one, from the blue, if there are several
 * @returns the crossing, or null where there is none
 */
export function smoothedCrossing(
  stretch: SmoothedStretch,
  values: Float64Array,
  level: number,
  rising: boolean,
  pick: 'first' | 'last',
): PlaceOnStretch | null {
  return crossingFinder(packStretch(stretch, values.length), rising, pick).find(values, level);
}

/** Finds crossings of levels, for any values on the same pixels. */
export interface CrossingFinder {
  readonly find: (values: Float64Array, level: number) => PlaceOnStretch | null;
  /** The place alone, to 1e-9 of a cell; NaN where there is none. */
  readonly quick: (values: Float64Array, level: number) => number;
}

/**
 * Makes the functions that find where the smoothed curve crosses a level.
 *
 * @param packed - the smoothed curve
 * @param rising - true for a crossing from below to above with growing wavelength
 * @param pick - which one, from the blue, if there are several
 * @returns functions of pixel values and level
 */
export function crossingFinder(
  packed: PackedStretch,
  rising: boolean,
  pick: 'first' | 'last',
): CrossingFinder {
  const { atNm } = packed;
  const n = atNm.length;
  const heights = new Float64Array(n);
  return {
    find: (values, level) => {
      const k = cellOf(values, level);
      if (k < 0) return null;
      const t = shareOf(k, values, level, 1e-13);
      return { atNm: atNm[k]! + t * (atNm[k + 1]! - atNm[k]!), k, t };
    },
    quick: (values, level) => {
      const k = cellOf(values, level);
      if (k < 0) return Number.NaN;
      // The last step of Newton's method is as good as its square: 1e-5 leaves less than 1e-9.
      return atNm[k]! + shareOf(k, values, level, 1e-5) * (atNm[k + 1]! - atNm[k]!);
    },
  };

  /** The place before the crossing, or -1. Heights are worked out a few at a time, up to where it is found. */
  function cellOf(values: Float64Array, level: number): number {
    if (pick === 'first') {
      let done = 0;
      for (let k = 0; k + 1 < n; k++) {
        if (k + 2 > done) {
          const end = Math.min(n, done + AT_ONCE);
          packedValues(packed, done, end, values, heights);
          done = end;
        }
        if (crosses(heights[k]!, heights[k + 1]!, level)) return k;
      }
      return -1;
    }
    let done = n;
    for (let k = n - 2; k >= 0; k--) {
      if (k < done) {
        const start = Math.max(0, done - AT_ONCE);
        packedValues(packed, start, done, values, heights);
        done = start;
      }
      if (crosses(heights[k]!, heights[k + 1]!, level)) return k;
    }
    return -1;
  }

  function crosses(a: number, b: number, level: number): boolean {
    return rising ? a < level && b >= level : a >= level && b < level;
  }

  /** Share of the cell at which its cubic crosses the level: Newton's method, kept between bounds. */
  function shareOf(cell: number, values: Float64Array, level: number, least: number): number {
    const width = atNm[cell + 1]! - atNm[cell]!;
    const rise = heights[cell + 1]! - heights[cell]!;
    const da = packedSlope(packed, cell, values) * width;
    const db = packedSlope(packed, cell + 1, values) * width;
    // The cubic through both heights and slopes, less the level: c0 + da t + c2 t^2 + c3 t^3.
    const c0 = heights[cell]! - level;
    const c2 = 3 * rise - 2 * da - db;
    const c3 = da + db - 2 * rise;
    let low = 0;
    let high = 1;
    let t = -c0 / rise;
    for (let i = 0; i < 60; i++) {
      const miss = c0 + t * (da + t * (c2 + t * c3));
      if (miss === 0) break;
      if (miss < 0 === rising) low = t;
      else high = t;
      let next = t - miss / (da + t * (2 * c2 + t * (3 * c3)));
      if (!(next > low && next < high)) next = (low + high) / 2;
      const moved = Math.abs(next - t);
      t = next;
      if (moved < least) break;
    }
    return t;
  }
}

/** Places whose heights are worked out together: a whole number of fours. */
const AT_ONCE = 8;
