import type { OpticalDensity } from './blockingTypes.js';

/** Why a curve of zeros has no optical density. */
export const noLight: string = 'the curve is exactly zero there: no finite optical density';

/** Optical density of a transmittance, or the lower limit that noise and stray light leave. */
export function densityOf(
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

/** The largest of noise floor, shared floor and stray light, and which it is. */
export function limitOf(
  noiseFloor: number,
  sharedFloor: number,
  strayLight: number,
): { transmittance: number; why: string } {
  const floor = Math.hypot(noiseFloor, sharedFloor);
  if (strayLight >= floor) {
    return {
      transmittance: strayLight,
      why: `stray light of the instrument, assumed up to ${strayLight.toPrecision(2)} of the open beam`,
    };
  }
  const what = sharedFloor > noiseFloor ? 'the dark, taken at another exposure' : 'noise';
  return {
    transmittance: floor,
    why: `${what}: a mean below ${floor.toPrecision(2)} cannot be told from zero`,
  };
}
