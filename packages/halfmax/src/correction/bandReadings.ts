import { type BandShape, bandValue, CENTRE, LOG_WIDTH } from './bandShape.js';

/** The numbers of a band curve. */
export interface BandReadings {
  readonly peakNm: number;
  readonly peakTransmittance: number;
  readonly blueNm: number;
  readonly redNm: number;
}

/**
 * Peak and outermost half-peak crossings of a band curve.
 *
 * @param shape - the shape
 * @param parameters - length shape.size
 * @returns the readings; crossings are searched from far outside inwards
 */
export function bandReadings(shape: BandShape, parameters: Float64Array): BandReadings {
  const centre = shape.originNm + parameters[CENTRE]!;
  const width = Math.exp(parameters[LOG_WIDTH]!);
  const at = (nm: number): number => bandValue(shape, parameters, nm);
  const step = width / TOP_STEPS;
  let peakNm = centre;
  let peak = at(centre);
  for (let k = -TOP_STEPS / 2; k <= TOP_STEPS / 2; k++) {
    const value = at(centre + k * step);
    if (value > peak) {
      peak = value;
      peakNm = centre + k * step;
    }
  }
  const before = at(peakNm - step);
  const after = at(peakNm + step);
  const bend = before - 2 * peak + after;
  if (bend < 0) {
    const move = Math.max(-1, Math.min(1, (0.5 * (before - after)) / bend));
    const finer = at(peakNm + move * step);
    if (finer > peak) {
      peak = finer;
      peakNm += move * step;
    }
  }
  return {
    peakNm,
    peakTransmittance: peak,
    blueNm: crossing(at, peakNm, -1, width, peak / 2),
    redNm: crossing(at, peakNm, 1, width, peak / 2),
  };
}

/** Steps across the width in which the top is searched. */
const TOP_STEPS = 24;

function crossing(
  at: (nm: number) => number,
  peakNm: number,
  side: -1 | 1,
  width: number,
  level: number,
): number {
  // From outside inwards, so that a ripple through the level does not count.
  let outside = 1.6 * width;
  let inside = outside;
  while (inside > 0 && at(peakNm + side * inside) < level) {
    outside = inside;
    inside -= 0.1 * width;
  }
  inside = Math.max(0, inside);
  for (let k = 0; k < 30; k++) {
    const middle = (inside + outside) / 2;
    if (at(peakNm + side * middle) < level) outside = middle;
    else inside = middle;
  }
  return peakNm + (side * (inside + outside)) / 2;
}
