import {
  bend,
  blueEnd,
  bluePower,
  foundLog,
  foundSlope,
  lift,
  lossAt,
  redEnd,
  redPower,
  tail,
} from './shapeCurve';
import { numberAt, ShapeTable } from './shapeTable';

const LN2: f64 = 0.6931471805599453;

/** Distance of the outermost crossing from the middle, in half widths. */
export function crossing(table: ShapeTable, isBlue: bool, level: f64): f64 {
  const end = isBlue ? blueEnd : redEnd;
  const power = isBlue ? bluePower : redPower;
  const guess = Math.pow(Math.expm1(tail * (end - level)) / lift, 1 / power);
  // At the half point the plain shape is exactly half.
  if (end - LN2 >= level) return guess;
  if (isNaN(level)) return NaN;
  const inwards = isBlue ? 1 : -1;
  const centre = (table.nodes - 1) >> 1;
  let g = isBlue ? 1 : table.nodes - 2;
  while (g != centre && numberAt(table.tops, g) - lossAt(table, g) < level) g += inwards;
  const sign: f64 = isBlue ? -1 : 1;
  let inside = sign * numberAt(table.place, g);
  let outside = sign * numberAt(table.place, g - inwards);
  let u = guess > inside && guess < outside ? guess : (inside + outside) / 2;
  for (let i = 0; i < 60; i++) {
    bend(table, sign * u);
    const miss = foundLog - level;
    if (miss > 0) inside = u;
    else outside = u;
    let next = u - miss / (sign * foundSlope);
    if (!(next > inside && next < outside)) next = (inside + outside) / 2;
    const moved = abs(next - u);
    u = next;
    if (moved < 1e-6) break;
  }
  return u;
}
