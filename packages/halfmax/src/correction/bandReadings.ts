import { bandCurve, type BandShape, CENTRE, LOG_WIDTH } from './bandShape.js';

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
  const at = bandCurve(shape, parameters);
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
const TOP_STEPS = 16;
/** Where the search for a crossing starts, in widths from the peak, and how far each step goes inwards. */
const START_WIDTHS = 1.05;
const STEP_WIDTHS = 0.15;

function crossing(
  at: (nm: number) => number,
  peakNm: number,
  side: -1 | 1,
  width: number,
  level: number,
): number {
  // From outside inwards, so that a ripple through the level does not count.
  let outside = START_WIDTHS * width;
  let above = at(peakNm + side * outside) - level;
  while (above > 0 && outside < 4 * width) {
    outside += width;
    above = at(peakNm + side * outside) - level;
  }
  let low = above;
  let inside = outside;
  let high = above;
  while (inside > 0 && high < 0) {
    outside = inside;
    low = high;
    inside = Math.max(0, inside - STEP_WIDTHS * width);
    high = at(peakNm + side * inside) - level;
  }
  // Regula falsi with the Illinois step.
  let kept = 0;
  for (let k = 0; k < 40 && Math.abs(outside - inside) > 1e-9 * width; k++) {
    const middle = inside + ((outside - inside) * high) / (high - low);
    const value = at(peakNm + side * middle) - level;
    if (Math.abs(value) < 1e-10) return peakNm + side * middle;
    if (value > 0) {
      inside = middle;
      high = value;
      if (kept === 1) low /= 2;
      kept = 1;
    } else {
      outside = middle;
      low = value;
      if (kept === -1) high /= 2;
      kept = -1;
    }
  }
  return peakNm + (side * (inside + outside)) / 2;
}
