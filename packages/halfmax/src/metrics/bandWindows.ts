import type { BandPlan, Side } from './bandPlan.js';
import { windowOverWidth } from './bandPlan.js';
import type { SmoothedStretch } from './smoothedStretch.js';
import { smoothedStretch } from './smoothedStretch.js';

/** Window over the rough 10-90 % width of an edge. */
const windowOverEdge = 0.4;
/** The gap that holds a place, if any. */
export function gapAt(plan: BandPlan, atNm: number): readonly [number, number] | undefined {
  return plan.gaps.find(([from, to]) => atNm > from && atNm < to);
}

/** Why a place in a gap has no number. */
export function inGap(gap: readonly [number, number]): string {
  return `it lies where the curve has no pixels, ${gap[0].toFixed(2)} to ${gap[1].toFixed(2)} nm`;
}

/** Widest window for the fits of the top, nm. */
export function topWindow(plan: BandPlan): number {
  return Math.max(windowOverWidth * plan.widthNm, plan.leastWindowNm);
}

/** Window for the fits around a crossing on one side, nm. */
export function edgeWindow(plan: BandPlan, side: Side): number {
  return Math.min(Math.max(windowOverEdge * side.edgeNm, plan.leastWindowNm), topWindow(plan));
}

/** The smoothed edge around a rough place: local cubics every half pixel. */
export function edgeStretch(plan: BandPlan, side: Side, atNm: number, reachNm: number): SmoothedStretch {
  const { curve, trust } = plan;
  const first = Math.max(atNm - reachNm, curve.wavelengthNm[plan.fromIndex]!);
  const last = Math.min(atNm + reachNm, curve.wavelengthNm[plan.toIndex]!);
  const window = edgeWindow(plan, side);
  return smoothedStretch(curve.wavelengthNm, trust, first, last, plan.pixelNm / 2, () => window, 3);
}

/** How far from a rough crossing the smoothed one is looked for, nm. */
export function searchReach(plan: BandPlan, side: Side): number {
  return Math.max(0.75 * side.edgeNm, 4.5 * plan.pixelNm);
}
