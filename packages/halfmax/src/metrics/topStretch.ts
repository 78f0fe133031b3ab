import type { BandPlan, Side } from './bandPlan.js';
import { gapAt, topWindow } from './bandWindows.js';
import type { SmoothedStretch } from './smoothedStretch.js';
import { smoothedStretch, stretchValue } from './smoothedStretch.js';

/** How far the windows of the top keep from the half crossings, over the width of the edge. */
const keepOff = 0.5;

/**
 * The smoothed top: local quadratics every half pixel. The window shrinks towards the edges, and the search
 * keeps away from them, since a local fit that reaches over a steep edge overshoots.
 */
export function topStretch(plan: BandPlan): SmoothedStretch {
  const { blue, red, widthNm, leastWindowNm: least } = plan;
  const margin = (side: Side): number => Math.min(least + keepOff * side.edgeNm, 0.3 * widthNm);
  const { curve, trust } = plan;
  const from = blue.halfNm + 0.08 * widthNm;
  const to = red.halfNm - 0.08 * widthNm;
  const wide = smoothedStretch(curve.wavelengthNm, trust, from, to, plan.pixelNm / 2, window, 2);
  const inner = between(blue.halfNm + margin(blue), red.halfNm - margin(red));
  const innerPeak = highest(inner);
  const widePeak = highest(between(from, to));
  // a top that truly rises outside the inner part, not an overshoot and not noise
  const noise = curve.standardUncertainty[plan.peakIndex]!;
  if (!(widePeak.value - innerPeak.value > Math.max(0.012 * innerPeak.value, 3 * noise))) return inner;
  return between(
    Math.min(blue.halfNm + margin(blue), widePeak.atNm - least),
    Math.max(red.halfNm - margin(red), widePeak.atNm + least),
  );

  /** The places of a part of the top, those in gaps left out. */
  function between(fromNm: number, toNm: number): SmoothedStretch {
    const kept = [...wide.atNm.keys()].filter((k) => {
      const at = wide.atNm[k]!;
      return at >= fromNm && at <= toNm && gapAt(plan, at) === undefined;
    });
    return {
      atNm: Float64Array.from(kept, (k) => wide.atNm[k]!),
      weights: kept.map((k) => wide.weights[k]!),
    };
  }

  function window(atNm: number): number {
    const side = atNm - blue.halfNm < red.halfNm - atNm ? blue : red;
    const free = Math.abs(atNm - side.halfNm) - keepOff * side.edgeNm;
    return Math.max(Math.min(topWindow(plan), free), least);
  }

  function highest(top: SmoothedStretch): { value: number; atNm: number } {
    let best = { value: -Infinity, atNm: plan.curve.wavelengthNm[plan.peakIndex]! };
    for (let k = 0; k < top.atNm.length; k++) {
      const value = stretchValue(top, k, plan.curve.transmittance);
      if (value > best.value) best = { value, atNm: top.atNm[k]! };
    }
    return best;
  }
}
