import {
  ASYMMETRY,
  type BandShape,
  CENTRE,
  FIRST_RIPPLE,
  GROUND,
  HEIGHT,
  LEAST_LOG_STEEPNESS,
  LEAST_TAIL,
  LOG_STEEPNESS,
  LOG_WIDTH,
  MOST_LOG_STEEPNESS,
  MOST_TAIL,
  STEEPNESS_ASYMMETRY,
  TAIL,
} from './bandShape.js';

/** Reads band curves of one shape, one set of parameters after another. */
export interface BandReader {
  /** Takes parameters, length shape.size; all that follows is of these. */
  readonly take: (parameters: Float64Array) => void;
  /** Transmittance at an air wavelength in nm, as `bandCurve` has it. */
  readonly value: (wavelengthNm: number) => number;
  /** Writes height and place of the peak, blue and red half-peak crossing into `out`; NaN for a crossing that is not. */
  readonly read: (out: Float64Array) => void;
}

/** Places in what a reader keeps of the parameters. Each edge has two entries, blue and red. */
const MIDDLE = 0;
const TOP_HEIGHT = 1;
const BELOW = 2;
const TAIL_POWER = 3;
const LIFT = 4;
const HALF = 5;
const POWER = 7;
const END = 9;
/** Places of what `bend` finds: the logarithm of the curve over its height, and two derivatives. */
const LOG = 0;
const SLOPE = 1;
const CURVATURE = 2;

/** Parts of the way from blue to red half point in which the top is searched: three to each ripple. */
const PARTS = 24;

/**
 * Makes a reader of band curves, for a fit's many draws: only what the parameters change is worked out again.
 *
 * The logarithm of the curve is searched for its top at fixed places between the half points, whose cosines are known;
 * from the highest of them Newton's method goes to the maximum. Beyond the half points no cosine varies, so a crossing
 * there has a closed form; between them Newton's method finds it, from outside inwards.
 *
 * @param shape - the shape
 * @returns the reader; it keeps the parameters last taken
 */
export function bandReader(shape: BandShape): BandReader {
  const { ripples } = shape;
  const nodes = PARTS + 1;
  const place = Float64Array.from({ length: nodes }, (_, g) => (2 * g) / PARTS - 1);
  const logPlace = place.map((s) => Math.log(Math.abs(s)));
  const cosines = new Float64Array(nodes * ripples);
  for (let g = 0; g < nodes; g++)
    for (let j = 0; j < ripples; j++) cosines[g * ripples + j] = Math.cos((Math.PI * (j + 1) * g) / PARTS);
  const kept = new Float64Array(11);
  const ripple = new Float64Array(ripples);
  const tops = new Float64Array(nodes);
  const logs = new Float64Array(nodes);
  const found = new Float64Array(3);
  /** Share of each ripple by which its crest may stand above both places beside it. */
  const missed = Float64Array.from(
    { length: ripples },
    (_, j) => 1 - Math.cos((Math.PI * (j + 1)) / (2 * PARTS)),
  );

  return { take, value, read };

  function take(parameters: Float64Array): void {
    const tail = Math.min(MOST_TAIL, Math.max(LEAST_TAIL, parameters[TAIL]!));
    const width = parameters[LOG_WIDTH]!;
    const uneven = parameters[ASYMMETRY]!;
    kept[MIDDLE] = shape.originNm + parameters[CENTRE]!;
    kept[TOP_HEIGHT] = parameters[HEIGHT]!;
    kept[BELOW] = parameters[GROUND]!;
    kept[TAIL_POWER] = tail;
    kept[LIFT] = 2 ** tail - 1;
    kept[HALF] = 0.5 * Math.exp(width - uneven);
    kept[HALF + 1] = 0.5 * Math.exp(width + uneven);
    const steep = parameters[LOG_STEEPNESS]!;
    const other = parameters[STEEPNESS_ASYMMETRY]!;
    kept[POWER] = 2 * steepness(steep - other);
    kept[POWER + 1] = 2 * steepness(steep + other);
    let blueEnd = 0;
    let redEnd = 0;
    for (let j = 0; j < ripples; j++) {
      const size = parameters[FIRST_RIPPLE + j]!;
      ripple[j] = size;
      blueEnd += size;
      redEnd += j % 2 === 0 ? -size : size;
    }
    kept[END] = blueEnd;
    kept[END + 1] = redEnd;
  }

  function value(wavelengthNm: number): number {
    const x = wavelengthNm - kept[MIDDLE]!;
    const side = x < 0 ? 0 : 1;
    const s = x / kept[HALF + side]!;
    const u = Math.abs(s);
    const lifted = u === 0 ? 0 : kept[LIFT]! * u ** kept[POWER + side]!;
    const top = u >= 1 ? kept[END + side]! : rippleAt(s);
    return kept[BELOW]! + kept[TOP_HEIGHT]! * Math.exp(top - Math.log1p(lifted) / kept[TAIL_POWER]!);
  }

  function rippleAt(s: number): number {
    // cos((j + 1) phase) by recursion: phase runs from 0 to pi across the top.
    const first = Math.cos((Math.PI / 2) * (s + 1));
    let before = 1;
    let term = first;
    let top = 0;
    for (let j = 0; j < ripples; j++) {
      top += ripple[j]! * term;
      const next = 2 * first * term - before;
      before = term;
      term = next;
    }
    return top;
  }

  function read(out: Float64Array): void {
    for (let g = 0; g < nodes; g++) {
      let top = 0;
      const at = g * ripples;
      for (let j = 0; j < ripples; j++) top += ripple[j]! * cosines[at + j]!;
      tops[g] = top;
    }
    let margin = 0;
    for (let j = 0; j < ripples; j++) margin += Math.abs(ripple[j]!) * missed[j]!;
    // From the middle outwards: the plain shape only lowers, the more the further out, so that many places need no
    // logarithm.
    let highest = tops[PARTS / 2]!;
    logs.fill(Number.NEGATIVE_INFINITY);
    logs[PARTS / 2] = highest;
    let blueLoss = 0;
    let redLoss = 0;
    for (let away = 1; away <= PARTS / 2; away++) {
      const g = PARTS / 2 - away;
      const h = PARTS / 2 + away;
      if (tops[g]! - blueLoss >= highest - margin) {
        blueLoss = lossAt(g);
        logs[g] = tops[g]! - blueLoss;
        if (logs[g]! > highest) highest = logs[g]!;
      }
      if (tops[h]! - redLoss >= highest - margin) {
        redLoss = lossAt(h);
        logs[h] = tops[h]! - redLoss;
        if (logs[h]! > highest) highest = logs[h]!;
      }
    }
    // Every hump that may be the highest between the places is followed to its top.
    let s = 0;
    let log = Number.NEGATIVE_INFINITY;
    for (let g = 0; g < nodes; g++) {
      if (!(logs[g]! >= highest - margin)) continue;
      if ((g > 0 && logs[g - 1]! > logs[g]!) || (g < PARTS && logs[g + 1]! > logs[g]!)) continue;
      const at = topNear(g);
      if (found[LOG]! > log) {
        log = found[LOG]!;
        s = at;
      }
    }
    const height = kept[TOP_HEIGHT]!;
    const peak = kept[BELOW]! + height * Math.exp(log);
    out[0] = peak;
    out[1] = kept[MIDDLE]! + s * kept[HALF + (s < 0 ? 0 : 1)]!;
    const level = Math.log((peak / 2 - kept[BELOW]!) / height);
    out[2] = kept[MIDDLE]! - kept[HALF]! * crossing(0, level);
    out[3] = kept[MIDDLE]! + kept[HALF + 1]! * crossing(1, level);
  }

  /** Logarithm of the curve over its height at a fixed place. */
  function nodeLog(g: number): number {
    return tops[g]! - lossAt(g);
  }

  /** What the plain shape takes from it. */
  function lossAt(g: number): number {
    const power = kept[POWER + (2 * g < PARTS ? 0 : 1)]!;
    return Math.log1p(kept[LIFT]! * Math.exp(power * logPlace[g]!)) / kept[TAIL_POWER]!;
  }

  /** The maximum between the neighbours of a fixed place; leaves the logarithm there in `found`. */
  function topNear(best: number): number {
    let low = place[Math.max(0, best - 1)]!;
    let high = place[Math.min(PARTS, best + 1)]!;
    let s = place[best]!;
    for (let i = 0; i < 40; i++) {
      bend(s);
      if (found[SLOPE]! > 0) low = s;
      else high = s;
      let next = s - found[SLOPE]! / found[CURVATURE]!;
      if (!(found[CURVATURE]! < 0 && next > low && next < high)) next = (low + high) / 2;
      const moved = next - s;
      s = next;
      // So little further on, two derivatives give the height to the last digit.
      if (Math.abs(moved) < 1e-7) {
        found[LOG]! += moved * (found[SLOPE]! + 0.5 * moved * found[CURVATURE]!);
        return s;
      }
      // The height is wrong by the square of what is left of the place.
      if (Math.abs(moved) < 1e-6) break;
    }
    bend(s);
    return s;
  }

  /** Distance of the outermost crossing from the middle, in half widths. */
  function crossing(side: 0 | 1, level: number): number {
    const end = kept[END + side]!;
    const power = kept[POWER + side]!;
    const guess = (Math.expm1(kept[TAIL_POWER]! * (end - level)) / kept[LIFT]!) ** (1 / power);
    // At the half point the plain shape is exactly half.
    if (end - Math.LN2 >= level) return guess;
    if (Number.isNaN(level)) return Number.NaN;
    const inwards = side === 0 ? 1 : -1;
    let g = side === 0 ? 1 : PARTS - 1;
    while (g !== PARTS / 2 && nodeLog(g) < level) g += inwards;
    const sign = side === 0 ? -1 : 1;
    let inside = sign * place[g]!;
    let outside = sign * place[g - inwards]!;
    let u = guess > inside && guess < outside ? guess : (inside + outside) / 2;
    for (let i = 0; i < 60; i++) {
      bend(sign * u);
      const miss = found[LOG]! - level;
      if (miss > 0) inside = u;
      else outside = u;
      let next = u - miss / (sign * found[SLOPE]!);
      if (!(next > inside && next < outside)) next = (inside + outside) / 2;
      const moved = Math.abs(next - u);
      u = next;
      if (moved < 1e-6) break;
    }
    return u;
  }

  /** Logarithm of the curve over its height between the half points, with its derivatives. */
  function bend(s: number): void {
    const phase = (Math.PI / 2) * (s + 1);
    const cosine = Math.cos(phase);
    const sine = Math.sin(phase);
    let c = 1;
    let d = 0;
    let top = 0;
    let slope = 0;
    let curvature = 0;
    for (let j = 0; j < ripples; j++) {
      const next = c * cosine - d * sine;
      d = d * cosine + c * sine;
      c = next;
      const size = ripple[j]!;
      top += size * c;
      slope -= (j + 1) * size * d;
      curvature -= (j + 1) * (j + 1) * size * c;
    }
    slope *= Math.PI / 2;
    curvature *= (Math.PI * Math.PI) / 4;
    const u = Math.abs(s);
    if (u > 0) {
      const power = kept[POWER + (s < 0 ? 0 : 1)]!;
      const tail = kept[TAIL_POWER]!;
      const lifted = kept[LIFT]! * u ** power;
      const share = lifted / (1 + lifted);
      top -= Math.log1p(lifted) / tail;
      slope -= (power * share) / (tail * s);
      curvature -= (power * share * (power / (1 + lifted) - 1)) / (tail * s * s);
    }
    found[LOG] = top;
    found[SLOPE] = slope;
    found[CURVATURE] = curvature;
  }
}

function steepness(logarithm: number): number {
  return Math.exp(Math.min(MOST_LOG_STEEPNESS, Math.max(LEAST_LOG_STEEPNESS, logarithm)));
}
