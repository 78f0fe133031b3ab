import { numberAt, ROW, ShapeTable } from './shapeTable';

const LN2: f64 = 0.6931471805599453;

/** The parameters taken last. */
export let middle: f64 = 0;
export let height: f64 = 0;
export let ground: f64 = 0;
export let tail: f64 = 0;
export let lift: f64 = 0;
export let blueHalf: f64 = 0;
export let redHalf: f64 = 0;
export let bluePower: f64 = 0;
export let redPower: f64 = 0;
export let blueEnd: f64 = 0;
export let redEnd: f64 = 0;

/** What `bend` found: the logarithm of the curve over its height, and two derivatives. */
export let foundLog: f64 = 0;
export let foundSlope: f64 = 0;
export let foundCurvature: f64 = 0;

/** Takes the parameters of one curve: all that follows is of these. */
export function take(table: ShapeTable, at: usize): void {
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
export function lossAt(table: ShapeTable, g: i32): f64 {
  const power = 2 * g < table.nodes - 1 ? bluePower : redPower;
  return Math.log1p(lift * Math.exp(power * load<f64>(table.logPlace + (usize(g) << 3)))) / tail;
}

/** Logarithm of the curve over its height between the half points, with its derivatives. */
export function bend(table: ShapeTable, s: f64): void {
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

/** Brings the logarithm that was found a little further on, by two derivatives. */
export function moveLog(moved: f64): void {
  foundLog += moved * (foundSlope + 0.5 * moved * foundCurvature);
}

/** Transmittance at a wavelength. */
export function valueAt(table: ShapeTable, wavelengthNm: f64): f64 {
  const x = wavelengthNm - middle;
  const isBlue = x < 0;
  const s = x / (isBlue ? blueHalf : redHalf);
  const u = abs(s);
  const lifted = u == 0 ? 0 : lift * Math.pow(u, isBlue ? bluePower : redPower);
  const top = u >= 1 ? (isBlue ? blueEnd : redEnd) : rippleAt(table, s);
  return ground + height * Math.exp(top - Math.log1p(lifted) / tail);
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
