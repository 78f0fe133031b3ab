import { bend, foundCurvature, foundLog, foundSlope, lossAt, moveLog } from './shapeCurve';
import { numberAt, ShapeTable } from './shapeTable';

/** Logarithms of the curve at the places that may be the highest; gives the highest less what may be missed. */
export function searchPlaces(table: ShapeTable): f64 {
  const ripples = table.ripples;
  const last = table.nodes - 1;
  const centre = last >> 1;
  let cosines = table.cosines;
  for (let g = 0; g <= last; g++) {
    let top: f64 = 0;
    for (let j = 0; j < ripples; j++) top += numberAt(table.ripple, j) * numberAt(cosines, j);
    cosines += usize(ripples) << 3;
    store<f64>(table.tops + (usize(g) << 3), top);
    store<f64>(table.logs + (usize(g) << 3), -Infinity);
  }
  let margin: f64 = 0;
  for (let j = 0; j < ripples; j++) margin += abs(numberAt(table.ripple, j)) * numberAt(table.missed, j);
  let highest = numberAt(table.tops, centre);
  store<f64>(table.logs + (usize(centre) << 3), highest);
  // From the middle outwards: the plain shape only lowers, the more the further out.
  let blueLoss: f64 = 0;
  let redLoss: f64 = 0;
  for (let away = 1; away <= centre; away++) {
    const g = centre - away;
    const h = centre + away;
    if (numberAt(table.tops, g) - blueLoss >= highest - margin) {
      blueLoss = lossAt(table, g);
      const log = numberAt(table.tops, g) - blueLoss;
      store<f64>(table.logs + (usize(g) << 3), log);
      if (log > highest) highest = log;
    }
    if (numberAt(table.tops, h) - redLoss >= highest - margin) {
      redLoss = lossAt(table, h);
      const log = numberAt(table.tops, h) - redLoss;
      store<f64>(table.logs + (usize(h) << 3), log);
      if (log > highest) highest = log;
    }
  }
  return highest - margin;
}

/** The maximum between the neighbours of a fixed place; leaves the logarithm there. */
export function topNear(table: ShapeTable, best: i32): f64 {
  let low = numberAt(table.place, max(0, best - 1));
  let high = numberAt(table.place, min(table.nodes - 1, best + 1));
  let s = numberAt(table.place, best);
  for (let i = 0; i < 40; i++) {
    bend(table, s);
    if (foundSlope > 0) low = s;
    else high = s;
    let next = s - foundSlope / foundCurvature;
    if (!(foundCurvature < 0 && next > low && next < high)) next = (low + high) / 2;
    const moved = next - s;
    s = next;
    // So little further on, two derivatives give the height to the last digit.
    if (abs(moved) < 1e-7) {
      moveLog(moved);
      return s;
    }
    if (abs(moved) < 1e-6) break;
  }
  bend(table, s);
  return s;
}
