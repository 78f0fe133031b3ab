import { firstAbove } from './localWeights.js';
import { requireCurve } from './requireCurve.js';
import { trustedPixels } from './spikes.js';
import type { Absent, Curve } from './types.js';

/** What limits a statement on blocking. */
export interface BlockingOptions {
  /** Smallest transmittance distinguishable from zero: one number, or one per pixel. @default 3 standard uncertainties */
  readonly floor?: number | ArrayLike<number>;
  /**
   * The instrument's own limit: light of other wavelengths that reaches a pixel, over the open beam.
   * Typical of a single monochromator: 0.1 %. @default 1e-3
   */
  readonly strayLight?: number;
  /** A pixel whose own limit lies above this transmittance has seen no blocking. @default 0.1 */
  readonly blindAbove?: number;
}

/** An optical density, a lower limit of it, or why there is neither. */
export type OpticalDensity =
  | { readonly value: number; readonly standardUncertainty: number }
  | { readonly atLeast: number; readonly why: string }
  | Absent;

/** An optical density with the place where it was found. */
export type PlacedOpticalDensity = OpticalDensity & { readonly atNm?: number };

/** Blocking over a range of wavelengths. */
export interface Blocking {
  readonly fromNm: number;
  readonly toNm: number;
  /** First and last wavelength where blocking was seen; null where it was seen nowhere. */
  readonly seenFromNm: number | null;
  readonly seenToNm: number | null;
  /** Share of the range, 0 to 1, that pixels with sight of blocking cover. */
  readonly seenShare: number;
  /** Optical density of the mean transmittance over what was seen. */
  readonly meanOpticalDensity: OpticalDensity;
  /** The lowest optical density of any three neighbouring pixels. */
  readonly worstOpticalDensity: PlacedOpticalDensity;
  /** The smallest mean transmittance that could be told from zero. */
  readonly limit: { readonly transmittance: number; readonly why: string };
}

/** 95 % one-sided point of the normal distribution: "below X" is meant to hold with that probability. */
const oneSided95 = 1.6448536269514722;

/**
 * Optical density between two wavelengths, as far as noise and stray light let it be seen.
 *
 * The mean transmittance is weighted by the width of the pixels. Its floor falls with the root of the number of
 * pixels, but never below the stray-light limit, since stray light does not average out. Where the mean does not stand above
 * both, only a lower limit of the optical density is given; where it does, up to the stray-light limit of it may
 * not have passed the filter, which is counted in the uncertainty.
 *
 * @param curve - at least 5 pixels
 * @param fromNm - air, nm
 * @param toNm - air, nm, above `fromNm`
 * @param options - floor and stray light
 * @returns mean and worst optical density with the range in which blocking was seen
 * @throws {RangeError} a curve, range or option that is not as described
 * Source: stray light of single monochromators: ASTM E387, introduction and note 2. Cost: O(n).
 */
export function opticalDensityIn(
  curve: Curve,
  fromNm: number,
  toNm: number,
  options: BlockingOptions = {},
): Blocking {
  requireCurve('opticalDensityIn', curve, 5);
  if (!(toNm > fromNm))
    throw new RangeError(`opticalDensityIn requires toNm above fromNm, got ${fromNm} and ${toNm}`);
  return blockingOver(curve, [[fromNm, toNm]], options);
}

/** Blocking over several stretches taken together. */
export function blockingOver(
  curve: Curve,
  stretches: readonly (readonly [number, number])[],
  options: BlockingOptions,
): Blocking {
  const { wavelengthNm, transmittance, standardUncertainty } = curve;
  const { strayLight = 1e-3, blindAbove = 0.1 } = options;
  if (!(strayLight >= 0 && strayLight < 1)) {
    throw new RangeError(`opticalDensityIn requires strayLight from 0 to 1, got ${strayLight}`);
  }
  const floors = pixelFloors(curve, options.floor);
  const trust = trustedPixels(curve);
  const n = wavelengthNm.length;
  let [width, asked, sum, variance, floorSquares, first, last] = [0, 0, 0, 0, 0, -1, -1];
  let worst = { value: -Infinity, bound: -Infinity, limit: 0, u: 0, atNm: 0 };
  let bound = { value: -Infinity, atNm: 0 };
  for (const [from, to] of stretches) {
    asked += to - from;
    const run: number[] = [];
    for (let i = firstAbove(wavelengthNm, from - 1e-9); i < n && wavelengthNm[i]! <= to + 1e-9; i++) {
      if (trust[i] === 0) continue;
      if (Math.max(floors[i]!, strayLight) > blindAbove) {
        run.length = 0;
        continue;
      }
      const w = pixelWidth(wavelengthNm, i, from, to);
      width += w;
      sum += w * transmittance[i]!;
      variance += (w * standardUncertainty[i]!) ** 2;
      floorSquares += (w * floors[i]!) ** 2;
      first = first < 0 ? i : first;
      last = i;
      run.push(i);
      if (run.length >= 3) look(run.slice(-3));
    }
  }
  const range = { fromNm: stretches[0]?.[0] ?? 0, toNm: stretches[stretches.length - 1]?.[1] ?? 0 };
  if (!(width > 0)) {
    const why = asked > 0 ? nothingSeen(curve, stretches) : 'the scan does not reach outside the passbands';
    return {
      ...range,
      seenFromNm: null,
      seenToNm: null,
      seenShare: 0,
      meanOpticalDensity: { absent: why },
      worstOpticalDensity: { absent: why },
      limit: { transmittance: 1, why },
    };
  }
  const mean = sum / width;
  const u = Math.sqrt(variance) / width;
  const floor = Math.sqrt(floorSquares) / width;
  const limit = limitOf(floor, strayLight);
  return {
    ...range,
    seenFromNm: wavelengthNm[first]!,
    seenToNm: wavelengthNm[last]!,
    seenShare: Math.min(1, width / asked),
    meanOpticalDensity: density(mean, u, limit, strayLight, mean + oneSided95 * u),
    worstOpticalDensity: worstOf(),
    limit,
  };

  function look(three: readonly number[]): void {
    let [value, square, floorSquare] = [0, 0, 0];
    for (const i of three) {
      value += transmittance[i]! / 3;
      square += (standardUncertainty[i]! / 3) ** 2;
      floorSquare += (floors[i]! / 3) ** 2;
    }
    const noise = Math.sqrt(square);
    const own = Math.max(Math.sqrt(floorSquare), strayLight);
    const atNm = wavelengthNm[three[1]!]!;
    const upper = Math.max(value + oneSided95 * noise, own);
    if (upper > bound.value) bound = { value: upper, atNm };
    // the highest of many is looked at: four standard uncertainties instead of three
    const stands = value > strayLight && value > 4 * noise && value > own;
    if (stands && value > worst.value) worst = { value, bound: upper, limit: own, u: noise, atNm };
  }

  function worstOf(): PlacedOpticalDensity {
    if (bound.value === -Infinity) return { absent: 'fewer than three neighbouring pixels' };
    if (!(bound.value > 0)) return { absent: noLight };
    if (bound.value > worst.bound && worst.value > -Infinity) {
      const seen = `${(-Math.log10(worst.value)).toFixed(2)} at ${worst.atNm.toFixed(2)} nm`;
      const why = `the lowest that stands above noise and stray light is ${seen}, noise hides more here`;
      return { atLeast: -Math.log10(bound.value), why, atNm: bound.atNm };
    }
    if (worst.value === -Infinity) {
      return {
        atLeast: -Math.log10(bound.value),
        why: 'no three neighbouring pixels stand above noise and stray light; the weakest limit is given',
        atNm: bound.atNm,
      };
    }
    return {
      ...density(worst.value, worst.u, { transmittance: worst.limit, why: '' }, strayLight, worst.bound),
      atNm: worst.atNm,
    };
  }
}

function nothingSeen(curve: Curve, stretches: readonly (readonly [number, number])[]): string {
  const holdsPixels = stretches.some(([from, to]) => curve.wavelengthNm.some((at) => at >= from && at <= to));
  return holdsPixels
    ? 'no pixel of the range sees any blocking: its own limit is too high'
    : 'the range lies outside the scan or between its pixels';
}

const noLight = 'the curve is exactly zero there: no finite optical density';

function density(
  mean: number,
  u: number,
  limit: { readonly transmittance: number; readonly why: string },
  strayLight: number,
  upper: number,
): OpticalDensity {
  if (mean > limit.transmittance) {
    const combined = Math.hypot(u, strayLight / Math.sqrt(12));
    return { value: -Math.log10(mean), standardUncertainty: combined / (mean * Math.LN10) };
  }
  const least = Math.max(upper, limit.transmittance);
  return least > 0 ? { atLeast: -Math.log10(least), why: limit.why } : { absent: noLight };
}

function limitOf(floor: number, strayLight: number): { transmittance: number; why: string } {
  if (strayLight >= floor) {
    return {
      transmittance: strayLight,
      why: `stray light of the instrument, up to ${strayLight.toPrecision(2)} of the open beam`,
    };
  }
  return {
    transmittance: floor,
    why: `noise: a mean below ${floor.toPrecision(2)} cannot be told from zero`,
  };
}

/** Per pixel: the floor given, or three standard uncertainties. */
export function pixelFloors(curve: Curve, floor: number | ArrayLike<number> | undefined): Float64Array {
  const n = curve.wavelengthNm.length;
  if (floor === undefined) return curve.standardUncertainty.map((u) => 3 * u);
  if (typeof floor === 'number') return new Float64Array(n).fill(floor);
  if (floor.length !== n)
    throw new RangeError(`opticalDensityIn requires a floor for ${n} pixels, got ${floor.length}`);
  return Float64Array.from(floor);
}

/** Half-way to both neighbours, cut at the range and at three times the narrower of the two ways. */
function pixelWidth(wavelengthNm: Float64Array, i: number, fromNm: number, toNm: number): number {
  const at = wavelengthNm[i]!;
  const left = i > 0 ? (at - wavelengthNm[i - 1]!) / 2 : Infinity;
  const right = i + 1 < wavelengthNm.length ? (wavelengthNm[i + 1]! - at) / 2 : Infinity;
  const most = 3 * Math.min(left, right);
  return Math.max(Math.min(left, most, at - fromNm) + Math.min(right, most, toNm - at), 1e-9);
}
