import type { GainTable } from './gainTable.js';
import { gainAt } from './gainTable.js';

/** Lines of one lamp, reduced to what the search needs. */
export interface SearchLamp {
  /** Pixels of the stronger lines, ascending: scored. */
  readonly pixels: readonly number[];
  /** Pixels of the strongest lines, ascending: triples are drawn from them. */
  readonly anchors: readonly number[];
  /** Air wavelengths the lamp may show, ascending. */
  readonly wavelengthsNm: readonly number[];
  readonly gain: GainTable;
}

/** A quadratic guess of the scale: wavelength = c0 + c1 t + c2 t^2, t = (pixel - pivot) / scale. */
export interface ProposedScale {
  readonly coefficients: readonly [number, number, number];
  readonly score: number;
}

/** Where a scale may lie. */
export interface SearchRange {
  readonly pixels: number;
  /** Smallest and largest wavelength that either end of the detector may have, nm. */
  readonly lowestNm: number;
  readonly highestNm: number;
  /** Smallest and largest span of the whole detector, nm. */
  readonly narrowestNm: number;
  readonly widestNm: number;
  /** Nominal wavelengths of first and last pixel and how far either may be off, where the session states them. */
  readonly nominal: { readonly startNm: number; readonly endNm: number; readonly marginNm: number } | null;
}

/** Dispersion may change by this share over the detector: a grating instrument's stays below 0.4. */
const CURVATURE_LIMIT = 0.45;
/** A triple must reach over this share of the detector, or the guess extrapolates too far. */
const SPAN_SHARE = 0.15;
/** Guesses kept, after near twins are merged. */
const KEPT = 60;

/**
 * Proposes wavelength scales by laying triples of found lines on triples of known lines, in both directions, and
 * scoring each quadratic against all lines of all lamps.
 *
 * @param lamps - found and known lines of each lamp
 * @param range - what scales are possible
 * @returns the best guesses, best first
 * Cost: some 10^6 triples, a table look-up per line for each that survives the limits.
 */
export function proposeScales(lamps: readonly SearchLamp[], range: SearchRange): ProposedScale[] {
  const pivot = (range.pixels - 1) / 2;
  const best = new Map<string, ProposedScale>();
  const scorers = lamps.map((lamp) => ({
    gain: lamp.gain,
    t: Float64Array.from(lamp.pixels, (pixel) => (pixel - pivot) / pivot),
  }));
  let threshold = Number.NEGATIVE_INFINITY;

  const consider = (c0: number, c1: number, c2: number): void => {
    let score = 0;
    for (const { gain, t } of scorers) {
      for (let n = 0; n < t.length; n++) {
        const x = t[n]!;
        score += gainAt(gain, c0 + x * (c1 + x * c2));
      }
    }
    if (score <= threshold) return;
    const key = `${Math.round((c0 - c1 + c2) / 2)},${Math.round(c0 / 2)},${Math.round((c0 + c1 + c2) / 2)}`;
    const twin = best.get(key);
    if (twin !== undefined && twin.score >= score) return;
    best.set(key, { coefficients: [c0, c1, c2], score });
    if (best.size > 4 * KEPT) threshold = prune(best);
  };

  for (const lamp of lamps) {
    const { anchors, wavelengthsNm: lines } = lamp;
    for (let i = 0; i < anchors.length; i++) {
      for (let k = i + 2; k < anchors.length; k++) {
        const span = anchors[k]! - anchors[i]!;
        if (span < SPAN_SHARE * range.pixels) continue;
        for (let a = 0; a < lines.length; a++) {
          for (let c = 0; c < lines.length; c++) {
            const delta = lines[c]! - lines[a]!;
            const total = (Math.abs(delta) * range.pixels) / span;
            if (total < 0.8 * range.narrowestNm || total > 1.2 * range.widestNm) continue;
            if (range.nominal !== null && delta * (range.nominal.endNm - range.nominal.startNm) < 0) continue;
            layMiddles(lamp, i, k, a, c, range, pivot, consider);
          }
        }
      }
    }
  }
  prune(best);
  return [...best.values()].sort((p, q) => q.score - p.score).slice(0, KEPT);
}

/** Tries every known line between two laid ends for every found line between them. */
function layMiddles(
  lamp: SearchLamp,
  i: number,
  k: number,
  a: number,
  c: number,
  range: SearchRange,
  pivot: number,
  consider: (c0: number, c1: number, c2: number) => void,
): void {
  const { anchors, wavelengthsNm: lines } = lamp;
  const x0 = anchors[i]!;
  const span = anchors[k]! - x0;
  const from = lines[a]!;
  const delta = lines[c]! - from;
  const first = Math.min(a, c) + 1;
  const last = Math.max(a, c) - 1;
  for (let j = i + 1; j < k; j++) {
    const f = (anchors[j]! - x0) / span;
    const sag = f * (1 - f);
    const straight = from + f * delta;
    const window = (CURVATURE_LIMIT / 2) * Math.abs(delta) * (span / range.pixels) * sag;
    for (let b = first; b <= last; b++) {
      const bend = lines[b]! - straight;
      if (bend < -window) continue;
      if (bend > window) break;
      // wavelength(u) = from + delta u - K u (1 - u), u = (pixel - x0) / span
      const K = -bend / sag;
      const u0 = (pivot - x0) / span;
      const du = pivot / span;
      const c0 = from + delta * u0 - K * u0 * (1 - u0);
      const c1 = du * (delta - K + 2 * K * u0);
      const c2 = K * du * du;
      if (allowed(c0 - c1 + c2, c0 + c1 + c2, range)) consider(c0, c1, c2);
    }
  }
}

function allowed(startNm: number, endNm: number, range: SearchRange): boolean {
  const lower = Math.min(startNm, endNm);
  const upper = Math.max(startNm, endNm);
  if (lower < range.lowestNm || upper > range.highestNm) return false;
  if (upper - lower < range.narrowestNm || upper - lower > range.widestNm) return false;
  if (range.nominal === null) return true;
  const { startNm: nominalStart, endNm: nominalEnd, marginNm } = range.nominal;
  return Math.abs(startNm - nominalStart) <= marginNm && Math.abs(endNm - nominalEnd) <= marginNm;
}

/** Drops all but the best guesses; gives the score a new one must beat. */
function prune(best: Map<string, ProposedScale>): number {
  const ranked = [...best.entries()].sort((p, q) => q[1].score - p[1].score);
  for (const [key] of ranked.slice(KEPT)) best.delete(key);
  return ranked.length > KEPT ? ranked[KEPT - 1]![1].score : Number.NEGATIVE_INFINITY;
}
