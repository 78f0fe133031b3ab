import { crossing } from './shapeCrossing';
import { blueHalf, foundLog, ground, height, middle, redHalf, take, valueAt } from './shapeCurve';
import { searchPlaces, topNear } from './shapePeak';
import { numberAt, ROW, ShapeTable } from './shapeTable';

/**
 * Reads band curves side by side.
 *
 * @param table - of the shape
 * @param parameters - a row for each
 * @param out - filled with four rows: height and place of the peak, blue and red half-peak crossing; NaN for a crossing
 *   that is not
 */
export function readShapes(table: ShapeTable, parameters: usize, out: usize): void {
  const last = table.nodes - 1;
  for (let k: usize = 0; k < ROW; k += 8) {
    take(table, parameters + k);
    const least = searchPlaces(table);
    // Every hump that may be the highest between the places is followed to its top.
    let s: f64 = 0;
    let log = -Infinity;
    for (let g = 0; g <= last; g++) {
      const here = numberAt(table.logs, g);
      if (!(here >= least)) continue;
      if ((g > 0 && numberAt(table.logs, g - 1) > here) || (g < last && numberAt(table.logs, g + 1) > here))
        continue;
      const at = topNear(table, g);
      if (foundLog > log) {
        log = foundLog;
        s = at;
      }
    }
    const peak = ground + height * Math.exp(log);
    const level = Math.log((peak / 2 - ground) / height);
    store<f64>(out + k, peak);
    store<f64>(out + ROW + k, middle + s * (s < 0 ? blueHalf : redHalf));
    store<f64>(out + 2 * ROW + k, middle - blueHalf * crossing(table, true, level));
    store<f64>(out + 3 * ROW + k, middle + redHalf * crossing(table, false, level));
  }
}

/** Transmittance of band curves, each at wavelengths of its own: so many rows of those in, as many rows of these out. */
export function shapeValues(
  table: ShapeTable,
  parameters: usize,
  rows: usize,
  wavelengthNm: usize,
  out: usize,
): void {
  for (let k: usize = 0; k < ROW; k += 8) {
    take(table, parameters + k);
    const end = k + rows * ROW;
    for (let at = k; at < end; at += ROW) {
      store<f64>(out + at, valueAt(table, load<f64>(wavelengthNm + at)));
    }
  }
}
