import { firstAbove, normalQuantile } from '../numeric/index.js';
import type { Blocking, BlockingOptions, PlacedOpticalDensity } from './blockingTypes.js';
import { densityOf, limitOf, noLight } from './densityOf.js';
import { floorDeviations, pixelFloors, pixelWidth } from './pixelFloors.js';
import { trustedPixels } from './trustedPixels.js';
import type { Curve } from './types.js';

/** "Below X" is meant to hold with a probability of 95 %. */
const oneSided95 = normalQuantile(0.95);

/** Blocking over several stretches taken together. */
export function blockingOver(
  curve: Curve,
  stretches: readonly (readonly [number, number])[],
  options: BlockingOptions,
): Blocking {
  const { wavelengthNm, transmittance, standardUncertainty } = curve;
  const { strayLight = 1e-3, blindAbove = 0.1, levelUncertainty = 0 } = options;
  if (!(strayLight >= 0 && strayLight < 1)) {
    throw new RangeError(`opticalDensityIn requires strayLight from 0 to 1, got ${strayLight}`);
  }
  const floors = pixelFloors(curve, options);
  const hides = options.shared === undefined ? 'noise' : 'noise, the dark';
  const trust = trustedPixels(curve);
  const n = wavelengthNm.length;
  let [width, asked, sum, variance, floorSquares, shared, first, last] = [0, 0, 0, 0, 0, 0, -1, -1];
  let worst = { value: -Infinity, bound: -Infinity, limit: 0, u: 0, atNm: 0 };
  let bound = { value: -Infinity, atNm: 0 };
  for (const [from, to] of stretches) {
    asked += to - from;
    const run: number[] = [];
    for (let i = firstAbove(wavelengthNm, from - 1e-9); i < n && wavelengthNm[i]! <= to + 1e-9; i++) {
      if (trust[i] === 0) continue;
      if (Math.max(floors.whole[i]!, strayLight) > blindAbove) {
        run.length = 0;
        continue;
      }
      const w = pixelWidth(wavelengthNm, i, from, to);
      width += w;
      sum += w * transmittance[i]!;
      variance += (w * standardUncertainty[i]!) ** 2;
      floorSquares += (w * floors.noise[i]!) ** 2;
      shared += w * floors.shared[i]!;
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
  const u = Math.hypot(Math.sqrt(variance) / width, shared / width, levelUncertainty * mean);
  const noiseFloor = Math.sqrt(floorSquares) / width;
  const limit = limitOf(noiseFloor, (floorDeviations * Math.abs(shared)) / width, strayLight);
  return {
    ...range,
    seenFromNm: wavelengthNm[first]!,
    seenToNm: wavelengthNm[last]!,
    seenShare: Math.min(1, width / asked),
    meanOpticalDensity: densityOf(mean, u, limit, strayLight, mean + oneSided95 * u),
    worstOpticalDensity: worstOf(),
    limit,
  };

  function look(three: readonly number[]): void {
    let [value, square, floorSquare, common] = [0, 0, 0, 0];
    for (const i of three) {
      value += transmittance[i]! / 3;
      square += (standardUncertainty[i]! / 3) ** 2;
      floorSquare += (floors.noise[i]! / 3) ** 2;
      common += floors.shared[i]! / 3;
    }
    const noise = Math.sqrt(square);
    const u = Math.hypot(noise, common, levelUncertainty * value);
    const own = Math.max(Math.hypot(Math.sqrt(floorSquare), floorDeviations * common), strayLight);
    const atNm = wavelengthNm[three[1]!]!;
    const upper = Math.max(value + oneSided95 * u, own);
    if (upper > bound.value) bound = { value: upper, atNm };
    // the highest of many is looked at: four standard uncertainties instead of three
    const stands = value > strayLight && value > 4 * noise && value > own;
    if (stands && value > worst.value) worst = { value, bound: upper, limit: own, u, atNm };
  }

  function worstOf(): PlacedOpticalDensity {
    if (bound.value === -Infinity) return { absent: 'fewer than three neighbouring pixels' };
    if (!(bound.value > 0)) return { absent: noLight };
    if (bound.value > worst.bound && worst.value > -Infinity) {
      const seen = `${(-Math.log10(worst.value)).toFixed(2)} at ${worst.atNm.toFixed(2)} nm`;
      const why = `the lowest that stands above ${hides} and stray light is ${seen}, noise hides more here`;
      return { atLeast: -Math.log10(bound.value), why, atNm: bound.atNm };
    }
    if (worst.value === -Infinity) {
      return {
        atLeast: -Math.log10(bound.value),
        why: `no three neighbouring pixels stand above ${hides} and stray light; the weakest limit is given`,
        atNm: bound.atNm,
      };
    }
    return {
      ...densityOf(worst.value, worst.u, { transmittance: worst.limit, why: '' }, strayLight, worst.bound),
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
