import { DRAWS } from './layout';

/** What does not change from one set of parameters to another: see `src/correction/bandReader.ts`, whose law this is. */
@unmanaged
export class ShapeTable {
  /** Cosine terms across the top. */
  ripples: i32;
  /** Places between the half points in which the top is searched: a middle and as many on both sides. */
  nodes: i32;
  originNm: f64;
  leastTail: f64;
  mostTail: f64;
  leastSteepness: f64;
  mostSteepness: f64;
  /** Of each place: distance from the middle in half widths, and its logarithm. */
  place: usize;
  logPlace: usize;
  /** Cosines at each place, `ripples` numbers each. */
  cosines: usize;
  /** Share of each ripple by which its crest may stand above both places beside it. */
  missed: usize;
  /** Room for work: the ripples, their sum and the logarithm of the curve at each place. */
  ripple: usize;
  tops: usize;
  logs: usize;
}

const LN2: f64 = 0.6931471805599453;

/** The parameters taken last. */
let middle: f64 = 0;
let height: f64 = 0;
let ground: f64 = 0;
let tail: f64 = 0;
let lift: f64 = 0;
let blueHalf: f64 = 0;
let redHalf: f64 = 0;
let bluePower: f64 = 0;
let redPower: f64 = 0;
let blueEnd: f64 = 0;
let redEnd: f64 = 0;

/** What `bend` found: the logarithm of the curve over its height, and two derivatives. */
let foundLog: f64 = 0;
let foundSlope: f64 = 0;
let foundCurvature: f64 = 0;

/** Rows of the parameters, then of each result, lie one row after another. */
const ROW: usize = DRAWS << 3;

function take(table: ShapeTable, at: usize): void {
  height = load<f64>(at);
  middle = table.originNm + load<f64>(at + ROW);
  const width = load<f64>(at + 2 * ROW);
  const uneven = load<f64>(at + 3 * ROW);
  const steep = load<f64>(at + 4 * ROW);
  const other = load<f64>(at + 5 * ROW);
  tail = min(table.mostTail, max(table.leastTail, load<f64>(at + 6 * ROW)));
  ground = load<f64>(at + 7 * ROW);
  lift = Math.exp(tail * LN2) - 1;
  blueHalf = 0.5 * Math.exp(width - uneven);
  redHalf = 0.5 * Math.exp(width + uneven);
  bluePower = 2 * steepness(table, steep - other);
  redPower = 2 * steepness(table, steep + other);
  blueEnd = 0;
  redEnd = 0;
  for (let j: usize = 0; j < usize(table.ripples); j++) {
    const size = load<f64>(at + (8 + j) * ROW);
    store<f64>(table.ripple + (j << 3), size);
    blueEnd += size;
    redEnd += j & 1 ? size : -size;
  }
}

function steepness(table: ShapeTable, logarithm: f64): f64 {
  return Math.exp(min(table.mostSteepness, max(table.leastSteepness, logarithm)));
}

/** What the plain shape takes from the logarithm at a place. */
function lossAt(table: ShapeTable, g: i32): f64 {
  const power = 2 * g < table.nodes - 1 ? bluePower : redPower;
  return Math.log1p(lift * Math.exp(power * load<f64>(table.logPlace + (usize(g) << 3)))) / tail;
}

// @ts-ignore: decorator
@inline
function numberAt(list: usize, g: i32): f64 {
  return load<f64>(list + (usize(g) << 3));
}

/** Logarithm of the curve over its height between the half points, with its derivatives. */
function bend(table: ShapeTable, s: f64): void {
  const phase = (Math.PI / 2) * (s + 1);
  const cosine = Math.cos(phase);
  const sine = Math.sin(phase);
  let c: f64 = 1;
  let d: f64 = 0;
  let top: f64 = 0;
  let slope: f64 = 0;
  let curvature: f64 = 0;
  for (let j = 0; j < table.ripples; j++) {
    const next = c * cosine - d * sine;
    d = d * cosine + c * sine;
    c = next;
    const size = numberAt(table.ripple, j);
    const order = f64(j + 1);
    top += size * c;
    slope -= order * size * d;
    curvature -= order * order * size * c;
  }
  slope *= Math.PI / 2;
  curvature *= (Math.PI * Math.PI) / 4;
  const u = abs(s);
  if (u > 0) {
    const power = s < 0 ? bluePower : redPower;
    const lifted = lift * Math.pow(u, power);
    const share = lifted / (1 + lifted);
    top -= Math.log1p(lifted) / tail;
    slope -= (power * share) / (tail * s);
    curvature -= (power * share * (power / (1 + lifted) - 1)) / (tail * s * s);
  }
  foundLog = top;
  foundSlope = slope;
  foundCurvature = curvature;
}

/** The maximum between the neighbours of a fixed place; leaves the logarithm there. */
function topNear(table: ShapeTable, best: i32): f64 {
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
      foundLog += moved * (foundSlope + 0.5 * moved * foundCurvature);
      return s;
    }
    if (abs(moved) < 1e-6) break;
  }
  bend(table, s);
  return s;
}

/** Distance of the outermost crossing from the middle, in half widths. */
function crossing(table: ShapeTable, isBlue: bool, level: f64): f64 {
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

/** Logarithms of the curve at the places that may be the highest; gives the highest less what may be missed. */
function searchPlaces(table: ShapeTable): f64 {
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
      const x = load<f64>(wavelengthNm + at) - middle;
      const isBlue = x < 0;
      const s = x / (isBlue ? blueHalf : redHalf);
      const u = abs(s);
      const lifted = u == 0 ? 0 : lift * Math.pow(u, isBlue ? bluePower : redPower);
      const top = u >= 1 ? (isBlue ? blueEnd : redEnd) : rippleAt(table, s);
      store<f64>(out + at, ground + height * Math.exp(top - Math.log1p(lifted) / tail));
    }
  }
}

function rippleAt(table: ShapeTable, s: f64): f64 {
  // cos((j + 1) phase) by recursion: phase runs from 0 to pi across the top.
  const first = Math.cos((Math.PI / 2) * (s + 1));
  let before: f64 = 1;
  let term = first;
  let top: f64 = 0;
  for (let j = 0; j < table.ripples; j++) {
    top += numberAt(table.ripple, j) * term;
    const next = 2 * first * term - before;
    before = term;
    term = next;
  }
  return top;
}
