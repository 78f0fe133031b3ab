import type { SmoothedStretch } from './smoothedStretch.js';
import { cubicSlope, cubicValue, stretchSlope, stretchValue } from './smoothedStretch.js';

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
  const n = stretch.atNm.length;
  const step = pick === 'first' ? 1 : -1;
  let k = pick === 'first' ? 0 : n - 1;
  let here = n > 0 ? stretchValue(stretch, k, values) : 0;
  for (let i = 1; i < n; i++) {
    const next = stretchValue(stretch, k + step, values);
    const [a, b] = pick === 'first' ? [here, next] : [next, here];
    if (rising ? a < level && b >= level : a >= level && b < level) {
      return refine(pick === 'first' ? k : k - 1, a, b);
    }
    k += step;
    here = next;
  }
  return null;

  function refine(cell: number, a: number, b: number): PlaceOnStretch {
    const width = stretch.atNm[cell + 1]! - stretch.atNm[cell]!;
    const da = stretchSlope(stretch, cell, values) * width;
    const db = stretchSlope(stretch, cell + 1, values) * width;
    let low = 0;
    let high = 1;
    let t = (level - a) / (b - a);
    for (let i = 0; i < 60; i++) {
      const miss = cubicValue(a, b, da, db, t) - level;
      if (miss === 0) break;
      if (miss < 0 === rising) low = t;
      else high = t;
      let next = t - miss / cubicSlope(a, b, da, db, t);
      if (!(next > low && next < high)) next = (low + high) / 2;
      const moved = Math.abs(next - t);
      t = next;
      if (moved < 1e-13) break;
    }
    return { atNm: stretch.atNm[cell]! + t * width, k: cell, t };
  }
}
