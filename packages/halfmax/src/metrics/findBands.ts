import { firstAbove } from '../numeric/index.js';
import { requireCurve } from './requireCurve.js';
import { roughCrossing, runningMedian3 } from './roughCrossing.js';
import { trustedPixels } from './trustedPixels.js';
import type { BandRange, Curve } from './types.js';

/** What counts as a passband. */
export interface FindBandsOptions {
  /** Level of the threshold over the band's own peak. @default 0.5 */
  readonly threshold?: number;
  /** Smallest peak that counts whatever the noise. @default 0.05 */
  readonly minimumPeak?: number;
  /** Smallest peak over the highest of the curve. @default 0.1 */
  readonly minimumShare?: number;
}

interface Candidate {
  peak: number;
  from: number;
  to: number;
}

/**
 * The passbands of a curve: connected regions around a peak, told apart where the curve truly falls
 * below the threshold of the lower peak between them. Ripples that stay above it do not split a band,
 * and one or two hot pixels are no band.
 *
 * @param curve - at least 5 pixels
 * @param options - what counts
 * @returns the bands from blue to red; none where nothing stands above 8 standard uncertainties,
 *   5 % transmittance and a tenth of the highest peak
 * @throws {RangeError} a curve that is not as described, a threshold outside 0 to 1
 * Cost: O(n + peaks^2).
 */
export function findBands(curve: Curve, options: FindBandsOptions = {}): BandRange[] {
  requireCurve('findBands', curve, 5);
  const { threshold = 0.5, minimumPeak = 0.05, minimumShare = 0.1 } = options;
  if (!(threshold > 0 && threshold < 1)) {
    throw new RangeError(`findBands requires a threshold between 0 and 1, got ${threshold}`);
  }
  const { wavelengthNm, standardUncertainty } = curve;
  const smooth = runningMedian3(wavelengthNm, curve.transmittance, trustedPixels(curve));
  const n = smooth.length;
  let highest = 0;
  for (let i = 1; i < n - 1; i++) if (isSeen(i)) highest = Math.max(highest, smooth[i]!);
  const least = Math.max(minimumPeak, minimumShare * highest);

  const candidates: Candidate[] = [];
  for (let i = 0; i < n; i++) {
    const rises = i === 0 || smooth[i]! > smooth[i - 1]!;
    if (!rises || smooth[i]! < least || !isSeen(i)) continue;
    let end = i;
    while (end + 1 < n && smooth[end + 1] === smooth[i]) end++;
    if (end === n - 1 || smooth[end + 1]! < smooth[i]!) candidates.push({ peak: i, from: i, to: end });
  }
  const bands = merge(candidates, smooth, standardUncertainty, threshold);
  const ranges = bands.map((band, k): BandRange => {
    const first = k === 0 ? 0 : lowest(smooth, bands[k - 1]!.to, band.from);
    const last = k === bands.length - 1 ? n - 1 : lowest(smooth, band.to, bands[k + 1]!.from);
    const peak = smooth[band.peak]!;
    const blue = outermost(band.from, -1, first);
    const red = outermost(band.to, 1, last);
    const start = blue === null;
    const end = red === null;
    return {
      fromNm: wavelengthNm[first]!,
      toNm: wavelengthNm[last]!,
      blueNm: blue ?? wavelengthNm[first]!,
      redNm: red ?? wavelengthNm[last]!,
      peakNm: wavelengthNm[band.peak]!,
      peakTransmittance: peak,
      truncated: start && end ? 'both' : start ? 'start' : end ? 'end' : null,
    };

    // the outer peak of a merged band may lie below the level: first inwards to the level, then out across it
    function outermost(outer: number, step: 1 | -1, edge: number): number | null {
      let i = outer;
      while (i !== band.peak && smooth[i]! < threshold * peak) i -= step;
      return roughCrossing(wavelengthNm, smooth, i, step, threshold * peak, edge);
    }
  });
  // no spectrometer spreads a line over fewer than three pixels
  return ranges.filter((band) => pixelsBetween(wavelengthNm, band.blueNm, band.redNm) >= 3);

  function isSeen(i: number): boolean {
    return smooth[i]! >= 8 * standardUncertainty[i]!;
  }
}

/** Joins neighbours whose valley stays above the threshold of the lower peak, shallowest valley first. */
function merge(
  candidates: Candidate[],
  smooth: Float64Array,
  u: Float64Array,
  threshold: number,
): Candidate[] {
  const bands = candidates.map((band) => ({ ...band }));
  const valleys = bands.slice(1).map((band, k) => lowest(smooth, bands[k]!.to, band.from));
  for (;;) {
    let best = -1;
    let bestDepth = threshold;
    valleys.forEach((valley, k) => {
      const lower = Math.min(smooth[bands[k]!.peak]!, smooth[bands[k + 1]!.peak]!);
      const depth = (smooth[valley]! + 3 * u[valley]!) / lower;
      if (depth >= bestDepth) {
        best = k;
        bestDepth = depth;
      }
    });
    if (best < 0) return bands;
    const [left, right] = [bands[best]!, bands[best + 1]!];
    const peak = smooth[left.peak]! >= smooth[right.peak]! ? left.peak : right.peak;
    bands.splice(best, 2, { peak, from: left.from, to: right.to });
    valleys.splice(best, 1);
  }
}

/** Index of the lowest value of a stretch, both ends included. */
function lowest(values: Float64Array, from: number, to: number): number {
  let at = from;
  for (let i = from; i <= to; i++) if (values[i]! < values[at]!) at = i;
  return at;
}

function pixelsBetween(wavelengthNm: Float64Array, fromNm: number, toNm: number): number {
  return firstAbove(wavelengthNm, toNm) - firstAbove(wavelengthNm, fromNm - 1e-9);
}
