import type { BeamRays } from './types.js';

/**
 * The directions by which a curve measured in one beam becomes that in another.
 *
 * In the logarithm of the wavelength a cone acts as a convolution, so the mean of the measuring cone is taken off and
 * the variance with it. A beam narrower than the measuring one only shifts the curve: what the measuring cone has
 * softened stays soft.
 *
 * @param used - the beam wanted
 * @param measured - the beam in which the curve was measured
 * @returns directions, and whether some of the measuring cone's softening stays
 * Source: cumulants of a convolution add; the third and higher ones are those of the beam wanted.
 */
export function raysBetween(used: BeamRays, measured: BeamRays): { rays: BeamRays; staysSoft: boolean } {
  const wanted = momentsOf(used);
  const there = momentsOf(measured);
  const left = wanted.variance - there.variance;
  const narrowing = wanted.variance > 0 ? Math.sqrt(Math.max(0, left) / wanted.variance) : 0;
  const mean = wanted.mean - there.mean;
  const sineSquared = used.sineSquared.map((value) => mean + narrowing * (value - wanted.mean));
  return { rays: { sineSquared, weight: used.weight }, staysSoft: left < -1e-15 };
}

function momentsOf({ sineSquared, weight }: BeamRays): { mean: number; variance: number } {
  let mean = 0;
  let square = 0;
  for (let i = 0; i < weight.length; i++) mean += weight[i]! * sineSquared[i]!;
  for (let i = 0; i < weight.length; i++) square += weight[i]! * (sineSquared[i]! - mean) ** 2;
  return { mean, variance: square };
}
