import { firstAbove, median } from '../numeric/index.js';
import { requireCurve } from './requireCurve.js';
import { roughCrossing, runningMedian3 } from './roughCrossing.js';
import { trustedPixels } from './trustedPixels.js';
import type { Absent, BandOptions, BandRange, Curve } from './types.js';

/** Pixels that any window reaches on each side, at least. */
const fewestPixels = 2.2;
/** Widest window over the rough FWHM: the bias of peak and width grows with its fourth power. */
export const windowOverWidth: number = 0.2;
/** Least window over the line spread. */
const windowOverSpread = 0.5;

/** One side of a band, roughly. */
export interface Side {
  readonly halfNm: number;
  readonly edgeNm: number;
}

/** What is settled once for a band: the pixels, the rough shape, the windows. */
export interface BandPlan {
  readonly curve: Curve;
  readonly trust: Float64Array;
  /** The curve without spikes, for rough places only. */
  readonly rough: Float64Array;
  readonly pixelNm: number;
  readonly fromIndex: number;
  readonly toIndex: number;
  readonly peakIndex: number;
  readonly roughPeak: number;
  readonly blue: Side;
  readonly red: Side;
  readonly widthNm: number;
  /** Stretches without pixels that are too wide to bridge. */
  readonly gaps: readonly (readonly [number, number])[];
  readonly leastWindowNm: number;
}

/**
 * Looks at a band roughly and settles how it is to be smoothed.
 *
 * @returns the plan, or why the band cannot be measured
 * @throws {RangeError} a curve or range that is not as described
 */
export function planBand(
  caller: string,
  curve: Curve,
  range: BandRange,
  options: BandOptions,
): BandPlan | Absent {
  requireCurve(caller, curve, 5);
  const { wavelengthNm } = curve;
  const spread = options.lineSpreadNm ?? 0;
  if (!(spread >= 0 && spread < Infinity)) {
    throw new RangeError(`${caller} requires a line spread of 0 or more, got ${spread}`);
  }
  const fromIndex = firstAbove(wavelengthNm, range.fromNm - 1e-9);
  const toIndex = firstAbove(wavelengthNm, range.toNm + 1e-9) - 1;
  if (toIndex < fromIndex) {
    throw new RangeError(
      `${caller} requires a range inside the curve, got ${range.fromNm} to ${range.toNm} nm`,
    );
  }
  if (range.truncated !== null) return { absent: runsOff(curve, range) };
  if (toIndex - fromIndex < 4) return { absent: 'fewer than 5 pixels across the band' };

  const trust = trustedPixels(curve);
  const rough = runningMedian3(wavelengthNm, curve.transmittance, trust);
  let peakIndex = fromIndex;
  for (let i = fromIndex; i <= toIndex; i++) if (rough[i]! > rough[peakIndex]!) peakIndex = i;
  const roughPeak = rough[peakIndex]!;
  const blueHalf = outermost(-1, 0.5);
  const redHalf = outermost(1, 0.5);
  if (blueHalf === null || redHalf === null || !(roughPeak > 0))
    return { absent: 'the range holds no whole passband' };
  const widthNm = redHalf - blueHalf;
  const steps: number[] = [];
  for (let i = fromIndex; i < toIndex; i++) {
    const near = wavelengthNm[i]! > blueHalf - widthNm && wavelengthNm[i + 1]! < redHalf + widthNm;
    if (near) steps.push(wavelengthNm[i + 1]! - wavelengthNm[i]!);
  }
  if (steps.length < 4) return { absent: 'fewer than 5 pixels across the band' };
  const pixelNm = median(steps);
  const bridge = Math.max(2.5 * pixelNm, spread);
  const gaps: [number, number][] = [];
  for (let i = fromIndex; i < toIndex; i++) {
    if (wavelengthNm[i + 1]! - wavelengthNm[i]! > bridge) gaps.push([wavelengthNm[i]!, wavelengthNm[i + 1]!]);
  }
  return {
    curve,
    trust,
    rough,
    pixelNm,
    fromIndex,
    toIndex,
    peakIndex,
    roughPeak,
    blue: { halfNm: blueHalf, edgeNm: edge(-1) },
    red: { halfNm: redHalf, edgeNm: edge(1) },
    widthNm,
    gaps,
    leastWindowNm: Math.max(
      fewestPixels * pixelNm,
      Math.min(windowOverSpread * spread, windowOverWidth * widthNm),
    ),
  };

  /** From the outside inwards to the level, then back across it. */
  function outermost(step: 1 | -1, level: number): number | null {
    const end = step > 0 ? toIndex : fromIndex;
    let i = firstAbove(wavelengthNm, step > 0 ? range.redNm : range.blueNm) - (step > 0 ? 0 : 1);
    i = Math.min(Math.max(i, fromIndex), toIndex);
    while (i !== end && rough[i]! >= level * roughPeak) i += step;
    while (i !== peakIndex && rough[i]! < level * roughPeak) i -= step;
    return roughCrossing(wavelengthNm, rough, i, step, level * roughPeak, end);
  }

  /** Twice the way from 30 to 70 % of the peak: near the 10-90 % width, and far from the noise of both ends. */
  function edge(step: 1 | -1): number {
    const low = outermost(step, 0.3);
    const high = outermost(step, 0.7);
    return low === null || high === null ? pixelNm : Math.max(2 * Math.abs(low - high), pixelNm);
  }
}

/** Why a band that is cut by the end of the scan has no width. */
function runsOff(curve: Curve, range: BandRange): string {
  const start = `start of the scan at ${curve.wavelengthNm[0]!.toFixed(2)} nm`;
  const end = `end of the scan at ${curve.wavelengthNm[curve.wavelengthNm.length - 1]!.toFixed(2)} nm`;
  const where =
    range.truncated === 'both' ? `${start} and the ${end}` : range.truncated === 'start' ? start : end;
  return `the band does not fall to half of its peak before the ${where}`;
}
