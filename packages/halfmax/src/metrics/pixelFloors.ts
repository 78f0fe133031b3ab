import type { BlockingOptions } from './blockingTypes.js';
import type { Curve } from './types.js';

/** What hides light in each pixel, transmittance. */
export interface PixelFloors {
  /** Smallest transmittance that can be told from zero. */
  readonly whole: Float64Array;
  /** The same by noise alone, which averages out over pixels. */
  readonly noise: Float64Array;
  /** One standard uncertainty, with its sign, of what does not average out. */
  readonly shared: Float64Array;
}

/** Standard uncertainties behind a floor. */
export const floorDeviations: number = 3;

/**
 * What hides light in each pixel: the floor given, or three standard uncertainties, told apart by what pixels share.
 *
 * @param curve - the curve
 * @param options - floor, and what of it is shared
 * @returns the floors, one value per pixel
 * @throws {RangeError} a floor or a shared part for another number of pixels
 */
export function pixelFloors(curve: Curve, options: Pick<BlockingOptions, 'floor' | 'shared'>): PixelFloors {
  const { floor, shared: given } = options;
  const n = curve.wavelengthNm.length;
  for (const [name, values] of Object.entries({ floor, 'shared part': given })) {
    if (typeof values === 'object' && values.length !== n)
      throw new RangeError(`opticalDensityIn requires a ${name} for ${n} pixels, got ${values.length}`);
  }
  const shared = given === undefined ? new Float64Array(n) : Float64Array.from(given);
  if (floor === undefined) {
    const noise = curve.standardUncertainty.map((u) => floorDeviations * u);
    return { whole: noise.map((own, i) => Math.hypot(own, floorDeviations * shared[i]!)), noise, shared };
  }
  const whole = typeof floor === 'number' ? new Float64Array(n).fill(floor) : Float64Array.from(floor);
  const noise = whole.map((value, i) =>
    shared[i] === 0 ? value : Math.sqrt(Math.max(0, value * value - (floorDeviations * shared[i]!) ** 2)),
  );
  return { whole, noise, shared };
}

/** Half-way to both neighbours, cut at the range and at three times the narrower of the two ways. */
export function pixelWidth(wavelengthNm: Float64Array, i: number, fromNm: number, toNm: number): number {
  const at = wavelengthNm[i]!;
  const left = i > 0 ? (at - wavelengthNm[i - 1]!) / 2 : Infinity;
  const right = i + 1 < wavelengthNm.length ? (wavelengthNm[i + 1]! - at) / 2 : Infinity;
  const most = 3 * Math.min(left, right);
  return Math.max(Math.min(left, most, at - fromNm) + Math.min(right, most, toNm - at), 1e-9);
}
