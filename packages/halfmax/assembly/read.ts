import { Band, ROW } from './layout';
import { leastOf, spanRows } from './bounds';
import { readPeaks } from './peak';
import { readCrossings } from './crossing';

/**
 * Reads peak and half-maximum crossings of many draws.
 *
 * @param band - tables
 * @param rows - pixel values: for each pixel of the band a row with one number per draw
 * @param out - rows of peak height, peak place, blue and red crossing; NaN for a draw that has none
 */
export function readMany(band: Band, rows: usize, out: usize): void {
  readPeaks(band, rows, out);
  const level = 0.5 * leastOf(out);
  spanRows(rows, band.pixels, band.spans);
  readEdge(band, true, rows, level, out);
  readEdge(band, false, rows, level, out);
  clear(band, out);
}

function readEdge(band: Band, rising: bool, rows: usize, level: f64, out: usize): void {
  const stretch = rising ? band.blue : band.red;
  const to = out + (rising ? 2 : 3) * ROW;
  readCrossings(stretch, rising, rows, band.spans, level, band.heights, band.slopes, band.high, out, to);
}

/** Puts NaN where a crossing is missing or lies in a gap. */
function clear(band: Band, out: usize): void {
  for (const end = out + ROW; out < end; out += 16) {
    const blue = v128.load(out, 2 * ROW);
    const red = v128.load(out, 3 * ROW);
    let missing = v128.or(f64x2.ne(blue, blue), f64x2.ne(red, red));
    let gap = band.gapNm;
    for (let g = 0; g < band.gaps; g++) {
      const from = v128.load64_splat(gap);
      const to = v128.load64_splat(gap, 8);
      missing = v128.or(missing, v128.and(f64x2.gt(blue, from), f64x2.lt(blue, to)));
      missing = v128.or(missing, v128.and(f64x2.gt(red, from), f64x2.lt(red, to)));
      gap += 16;
    }
    if (!v128.any_true(missing)) continue;
    v128.store(out, v128.or(v128.load(out), missing));
    v128.store(out, v128.or(v128.load(out, ROW), missing), ROW);
    v128.store(out, v128.or(blue, missing), 2 * ROW);
    v128.store(out, v128.or(red, missing), 3 * ROW);
  }
}
