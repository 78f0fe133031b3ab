import { evaluatePolynomial, firstAbove, median, medianAbsoluteDeviation } from '../numeric/index.js';
import { explainedShare } from './explainedShare.js';
import { joinedStretches, type Stretch } from './gainTable.js';
import { fitHeldPolynomial } from './heldPolynomial.js';
import type { ProposedScale } from './proposeScales.js';
import type { RoughScale } from './roughScale.js';
import { scoreScale } from './scoreScale.js';
import type { UsableLamp } from './usableLamp.js';

/** Bounds of the placing error of a line under the right scale, nm. */
const LEAST_TOLERANCE_NM = 0.04;
/** Error of a line's place that the rough fits assume, nm. */
const PLACING_ERROR_NM = 0.05;

/** Lays lines on the nearest known ones in a shrinking window and fits again, quadratic first, then cubic. */
export function refineScale(
  proposal: ProposedScale,
  lamps: readonly UsableLamp[],
  pixels: number,
): RoughScale | null {
  const pivotPixel = (pixels - 1) / 2;
  let coefficients: Float64Array = Float64Array.from(proposal.coefficients);
  const widthPixels = median(lamps.flatMap(({ lines }) => lines.map((line) => line.fwhmPixels)));
  const widthNm = (widthPixels * Math.abs(proposal.coefficients[1])) / pivotPixel;
  const blends = lamps.map(({ strongNm }) => joinedStretches(strongNm, widthNm));
  let pairs: Pair[] = [];
  let determined = 3;
  for (const [windowNm, degree] of [
    [1.6, 2],
    [1.0, 3],
    [0.7, 4],
    [0.5, 5],
    [0.5, 5],
  ] as const) {
    pairs = layLines(coefficients, pivotPixel, lamps, windowNm, blends);
    const kept = pairs.length > degree + 3 ? dropFar(pairs) : pairs;
    if (kept.length < 3) return null;
    const fit = fitHeldPolynomial(
      kept.map((pair) => powersOf((pair.pixel - pivotPixel) / pivotPixel, degree)),
      degree,
      kept.map((pair) => pair.wavelengthNm),
      new Float64Array(kept.length).fill(1 / PLACING_ERROR_NM ** 2),
      Math.abs(coefficients[1]!),
    );
    if (bendsTooMuch(fit.coefficients)) return null;
    determined = kept.length - fit.degreesOfFreedom;
    coefficients = fit.coefficients;
  }
  pairs = layLines(coefficients, pivotPixel, lamps, 0.5, blends);
  const scale = { coefficients, pivotPixel, pixelScale: pivotPixel };
  const squares = pairs.map((pair) => pair.residualNm ** 2).sort((p, q) => p - q);
  // The worst fifth may be blends; what is left, with the fit's own freedom counted, is the placing error.
  const clear = squares.slice(0, Math.ceil(0.8 * squares.length));
  const freedom = Math.max(0.5, clear.length - determined);
  const placing = Math.sqrt(clear.reduce((sum, square) => sum + square, 0) / freedom);
  const toleranceNm = Math.min(0.4, Math.max(LEAST_TOLERANCE_NM, 1.3 * placing));
  return {
    ...scale,
    score: scoreScale(scale, lamps, toleranceNm, widthNm, pixels),
    runnerUp: 0,
    matched: pairs.length,
    explained: lamps.map(({ lines, known }) =>
      explainedShare(scale, lines, known, Math.max(0.3, 3 * toleranceNm)),
    ),
  };
}

function powersOf(t: number, degree: number): number[] {
  const powers = [1];
  for (let k = 0; k < degree; k++) powers.push(powers[k]! * t);
  return powers;
}

interface Pair {
  readonly pixel: number;
  readonly wavelengthNm: number;
  readonly residualNm: number;
}

/** One known line for one found line at most: the nearest, within the window; what may be a blend is left out. */
function layLines(
  coefficients: Float64Array,
  pivotPixel: number,
  lamps: readonly UsableLamp[],
  windowNm: number,
  blends: readonly (readonly Stretch[])[],
): Pair[] {
  const pairs: Pair[] = [];
  for (let k = 0; k < lamps.length; k++) {
    const { lines, strongNm } = lamps[k]!;
    const taken = new Map<number, Pair>();
    for (const line of lines) {
      const at = evaluatePolynomial(coefficients, (line.pixel - pivotPixel) / pivotPixel);
      const nearest = nearestOf(strongNm, at);
      const residualNm = at - nearest;
      if (!(Math.abs(residualNm) <= windowNm)) continue;
      if (
        Math.abs(residualNm) > 0.1 &&
        blends[k]!.some((blend) => at > blend.fromNm && at < blend.toNm && blend.toNm - blend.fromNm > 0.2)
      )
        continue;
      const rival = taken.get(nearest);
      if (rival !== undefined && Math.abs(rival.residualNm) <= Math.abs(residualNm)) continue;
      taken.set(nearest, { pixel: line.pixel, wavelengthNm: nearest, residualNm });
    }
    pairs.push(...taken.values());
  }
  return pairs;
}

/** The entry of an ascending list that is nearest to a value, NaN where the list is empty. */
function nearestOf(ascendingNm: readonly number[], at: number): number {
  const next = firstAbove(ascendingNm, at);
  const above = ascendingNm[next] ?? Number.NaN;
  const below = ascendingNm[next - 1] ?? Number.NaN;
  return Math.abs(above - at) < Math.abs(below - at) || Number.isNaN(below) ? above : below;
}

function dropFar(pairs: readonly Pair[]): Pair[] {
  const middle = median(pairs.map((pair) => pair.residualNm));
  const spread = medianAbsoluteDeviation(pairs.map((pair) => pair.residualNm));
  return pairs.filter((pair) => Math.abs(pair.residualNm - middle) <= 3 * spread + 0.02);
}

/** A grating instrument's dispersion neither changes sign nor by half over the detector. */
function bendsTooMuch(coefficients: Float64Array): boolean {
  const slope = (t: number): number =>
    coefficients.reduce((sum, c, k) => (k === 0 ? 0 : sum + k * c * t ** (k - 1)), 0);
  const slopes = [slope(-1), slope(0), slope(1)].map((value) => value / slope(0));
  return Math.min(...slopes) < 0.55 || Math.max(...slopes) > 1.5;
}
