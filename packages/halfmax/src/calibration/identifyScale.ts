import { evaluatePolynomial, firstAbove, median } from '../numeric/index.js';
import type { LampLine } from '../reference/index.js';
import { blendStretches, gainTable, lineGain, type Stretch } from './gainTable.js';
import { fitHeldPolynomial } from './heldPolynomial.js';
import { type ProposedScale, proposeScales, type SearchLamp } from './proposeScales.js';
import type { FoundLine, LampLines } from './types.js';

/** A lamp's found lines and the lines that its label allows. */
export interface LabelledLamp {
  readonly lamp: LampLines;
  readonly known: readonly LampLine[];
}

/** A rough scale, good to a fraction of the line spread. */
export interface RoughScale {
  /** Air wavelength in powers of t = (pixel - pivotPixel) / pixelScale. */
  readonly coefficients: Float64Array;
  readonly pivotPixel: number;
  readonly pixelScale: number;
  /** Log-likelihood gain over chance. */
  readonly score: number;
  /** The same for the best scale that is another one. */
  readonly runnerUp: number;
  /** Lines laid on known ones. */
  readonly matched: number;
  /** Share of each lamp's stronger lines that are laid on known ones, in the order of the lamps. */
  readonly explained: readonly number[];
}

/** Nominal range from the session: may be tens of nm off. */
export interface NominalRange {
  readonly startNm: number;
  readonly endNm: number;
}

/** Gain over the next best scale below which no scale is believed. */
const LEAST_MARGIN = 6;
/** Gain over the next best scale that is enough whatever the gain over chance: many foreign lines lower all scales. */
const CLEAR_MARGIN = 15;
/**
 * Gain over chance that a scale must reach otherwise. Over simulated sessions right scales gained 15 and more; lines laid on the
 * wrong lamp's table gained about 0.
 */
const LEAST_SCORE = 10;
/** Lines that a scale must lay on known ones. */
const LEAST_MATCHED = 5;
/** How far a nominal end may be off, nm. */
const NOMINAL_MARGIN_NM = 60;
/** Bounds of the placing error of a line under the right scale, nm. */
const LEAST_TOLERANCE_NM = 0.04;
/** Error of a line's place that the rough fits assume, nm. */
const PLACING_ERROR_NM = 0.05;
const SCORED_LINES = 36;
/** Lines scored in the search, and the placing error allowed there, nm. */
const SEARCHED_LINES = 24;
const SEARCH_TOLERANCE_NM = 0.45;
const ANCHOR_LINES = 13;
/** Known lines nearer than so many widths may be found as one. */
const BLEND_WIDTHS = 1.1;
/** Lines found of which it is odd to be faint ones in the table. */
const STRONGEST = 6;
/** A weak line this far from all stronger ones can be known by itself, nm. */
const LONELY_NM = 5;
/** Cost of taking a found line for one that the table calls weak. */
const WEAK_TOLL = 0.7;
/** Strength of a line whose strength is not published, against the strongest of its species. */
const UNKNOWN_SHARE = 0.05;
/** Lines below this share of the lamp's brightest need no explanation. */
const EXPLAINED_SHARE = 0.02;

/**
 * Finds the wavelength scale of a detector from its lamp lines without any hint, or with a nominal range.
 *
 * @param lamps - found lines and the known lines of each lamp's label
 * @param pixels - length of the detector
 * @param nominal - the session's nominal range, or null
 * @returns a rough scale, or why there is none
 */
export function identifyScale(
  lamps: readonly LabelledLamp[],
  pixels: number,
  nominal: NominalRange | null,
): RoughScale | { absent: string } {
  const usable = lamps.map(({ lamp, known }) => usableLamp(strongest(lamp.lines, SCORED_LINES), known));
  const most = Math.max(0, ...usable.map(({ lines }) => lines.length));
  if (most < 3) {
    return {
      absent: `only ${most} line${most === 1 ? '' : 's'} stand out of the noise; at least 3 of one lamp are needed`,
    };
  }
  const search: SearchLamp[] = usable.map((lamp) => ({
    pixels: ascending(lamp.lines.slice(0, SEARCHED_LINES)),
    anchors: ascending(lamp.lines.slice(0, ANCHOR_LINES)),
    wavelengthsNm: lamp.strongNm.filter((nm) => nm > 330 && nm < 930),
    gain: gainTable(lampGain(lamp, SEARCH_TOLERANCE_NM, 0)),
  }));
  const range = { pixels, lowestNm: 310, highestNm: 960, narrowestNm: 70, widestNm: 640 };
  const hinted = nominal === null ? null : { ...nominal, marginNm: NOMINAL_MARGIN_NM };
  const proposals = proposeScales(search, { ...range, nominal: hinted });
  const refined = proposals
    .map((proposal) => refine(proposal, usable, pixels))
    .filter((scale) => scale !== null);
  refined.sort((a, b) => b.score - a.score);
  const best = refined[0];
  if (best === undefined) return { absent: 'no wavelength scale lays the found lines on known ones' };
  const other = refined.find((scale) => isAnother(scale, best, usable));
  const runnerUp = other === undefined ? Number.NEGATIVE_INFINITY : other.score;
  const margin = best.score - runnerUp;
  const stands = margin >= CLEAR_MARGIN || (margin >= LEAST_MARGIN && best.score >= LEAST_SCORE);
  if (best.matched < LEAST_MATCHED || !stands) {
    return {
      absent:
        `no wavelength scale stands out (best gain over chance ${best.score.toFixed(1)}, next ${runnerUp.toFixed(1)}, ` +
        `${best.matched} lines laid on known ones)`,
    };
  }
  return { ...best, runnerUp };
}

/**
 * Share of the stronger lines of a lamp that a scale lays on known lines.
 *
 * @param scale - rough scale
 * @param lines - found lines
 * @param known - known lines of a label, any order
 * @param toleranceNm - largest distance
 * @returns 0 to 1; 0 where there are no lines
 */
export function explainedShare(
  scale: Pick<RoughScale, 'coefficients' | 'pivotPixel' | 'pixelScale'>,
  lines: readonly FoundLine[],
  known: readonly LampLine[],
  toleranceNm: number,
): number {
  const brightest = Math.max(...lines.map((line) => line.height));
  const strong = strongest(lines, 12).filter((line) => line.height >= EXPLAINED_SHARE * brightest);
  if (strong.length === 0) return 0;
  const laid = strong.filter((line) => {
    const at = evaluatePolynomial(scale.coefficients, (line.pixel - scale.pivotPixel) / scale.pixelScale);
    return known.some((candidate) => Math.abs(candidate.wavelengthNm - at) <= toleranceNm);
  });
  return laid.length / strong.length;
}

/**
 * Lines that a lamp is known by: those that the table does not call weak, and the weak ones that have nothing stronger
 * within {@link LONELY_NM}, such as neon's from blue to green.
 */
function prominent(known: readonly LampLine[]): LampLine[] {
  const strong = known.filter((line) => !line.weak);
  return known.filter(
    (line) =>
      !line.weak || strong.every((other) => Math.abs(other.wavelengthNm - line.wavelengthNm) > LONELY_NM),
  );
}

/** A lamp's lines, and what does not depend on a scale, worked out once. */
interface Usable {
  readonly lines: readonly FoundLine[];
  readonly known: readonly LampLine[];
  readonly strong: readonly LampLine[];
  /** Strength of each strong line among its species. */
  readonly shares: readonly number[];
  /** Wavelengths of the strong and of all known lines, ascending. */
  readonly strongNm: readonly number[];
  readonly knownNm: readonly number[];
}

function usableLamp(lines: readonly FoundLine[], known: readonly LampLine[]): Usable {
  const strong = prominent(known);
  return {
    lines,
    known,
    strong,
    shares: strong.map((line) => shareOf(line, strong)),
    strongNm: ascendingWavelengths(strong),
    knownNm: ascendingWavelengths(known),
  };
}

function strongest(lines: readonly FoundLine[], count: number): FoundLine[] {
  const real = lines.filter((line) => line.trouble === null || !line.trouble.startsWith('narrower'));
  return [...real].sort((a, b) => b.height - a.height).slice(0, count);
}

function ascending(lines: readonly FoundLine[]): number[] {
  return lines.map((line) => line.pixel).sort((a, b) => a - b);
}

/** Lays lines on the nearest known ones in a shrinking window and fits again, quadratic first, then cubic. */
function refine(proposal: ProposedScale, lamps: readonly Usable[], pixels: number): RoughScale | null {
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
    score: scoreOf(scale, lamps, toleranceNm, widthNm, pixels),
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
  lamps: readonly Usable[],
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

/** Stretches in which the line spread joins neighbouring lines. */
function joinedStretches(ascendingNm: readonly number[], widthNm: number): Stretch[] {
  return blendStretches(ascendingNm, BLEND_WIDTHS * widthNm);
}

function ascendingWavelengths(known: readonly LampLine[]): number[] {
  return known.map((line) => line.wavelengthNm).sort((a, b) => a - b);
}

function dropFar(pairs: readonly Pair[]): Pair[] {
  const middle = median(pairs.map((pair) => pair.residualNm));
  const spread = 1.4826 * median(pairs.map((pair) => Math.abs(pair.residualNm - middle)));
  return pairs.filter((pair) => Math.abs(pair.residualNm - middle) <= 3 * spread + 0.02);
}

/** A grating instrument's dispersion neither changes sign nor by half over the detector. */
function bendsTooMuch(coefficients: Float64Array): boolean {
  const slope = (t: number): number =>
    coefficients.reduce((sum, c, k) => (k === 0 ? 0 : sum + k * c * t ** (k - 1)), 0);
  const slopes = [slope(-1), slope(0), slope(1)].map((value) => value / slope(0));
  return Math.min(...slopes) < 0.55 || Math.max(...slopes) > 1.5;
}

/** Gain over chance of all found lines, less a toll for known lines that nothing is found at. */
function scoreOf(
  scale: Pick<RoughScale, 'coefficients' | 'pivotPixel' | 'pixelScale'>,
  lamps: readonly Usable[],
  toleranceNm: number,
  widthNm: number,
  pixels: number,
): number {
  const at = (pixel: number): number =>
    evaluatePolynomial(scale.coefficients, (pixel - scale.pivotPixel) / scale.pixelScale);
  const lower = Math.min(at(0), at(pixels - 1));
  const upper = Math.max(at(0), at(pixels - 1));
  let score = 0;
  for (const lamp of lamps) {
    const { strong, shares } = lamp;
    const gain = lampGain(lamp, toleranceNm, widthNm);
    const places = lamp.lines.map((line) => at(line.pixel));
    for (const place of places) score += gain(place);
    for (const place of places.slice(0, STRONGEST)) score -= surprise(place, lamp, toleranceNm);
    for (let k = 0; k < strong.length; k++) {
      const line = strong[k]!;
      const inside = Math.min(line.wavelengthNm - lower, upper - line.wavelengthNm) / (upper - lower);
      if (
        inside < 0.01 ||
        places.some((place) => Math.abs(place - line.wavelengthNm) < Math.max(1.2, 0.6 * widthNm))
      )
        continue;
      // The throughput falls at the ends of a detector: a line missed there says less.
      score -= (inside < 0.12 ? 0.5 : 1) * tollOf(shares[k]!);
    }
  }
  return score;
}

/** Gain of a found line over chance: as one of the lamp's strong lines, or at a toll as one that the table calls weak. */
function lampGain(
  { strongNm, knownNm }: Usable,
  toleranceNm: number,
  widthNm: number,
): (wavelengthNm: number) => number {
  const strong = lineGain(strongNm, toleranceNm, joinedStretches(strongNm, widthNm));
  const any = lineGain(knownNm, toleranceNm, joinedStretches(knownNm, widthNm));
  return (at) => Math.max(strong(at), any(at) - WEAK_TOLL);
}

/** Cost of one of the strongest lines found lying on a line that is faint in its species. */
function surprise(place: number, { strong, shares }: Usable, toleranceNm: number): number {
  let share = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < strong.length; k++) {
    if (Math.abs(strong[k]!.wavelengthNm - place) < 3 * toleranceNm) share = Math.max(share, shares[k]!);
  }
  if (share === Number.NEGATIVE_INFINITY) return 0;
  return share >= 0.1 ? 0 : share >= 0.02 ? 0.7 : 1.5;
}

/** Strength of a line against the strongest of its species in the table. */
function shareOf(line: LampLine, strong: readonly LampLine[]): number {
  if (line.relativeIntensity === null) return UNKNOWN_SHARE;
  const fellows = strong.filter((other) => other.species === line.species);
  return line.relativeIntensity / Math.max(1, ...fellows.map((other) => other.relativeIntensity ?? 0));
}

/** Cost of not seeing a line, by its strength among its species. */
function tollOf(share: number): number {
  return share >= 0.4 ? 1.6 : share >= 0.1 ? 0.7 : 0.1;
}

/** Whether two scales give different names to the lines: their wavelengths there differ by more than a nanometre. */
function isAnother(a: RoughScale, b: RoughScale, lamps: readonly Usable[]): boolean {
  const places = lamps.flatMap(({ lines }) =>
    lines.map((line) => (line.pixel - a.pivotPixel) / a.pixelScale),
  );
  return (
    median(
      places.map((t) =>
        Math.abs(evaluatePolynomial(a.coefficients, t) - evaluatePolynomial(b.coefficients, t)),
      ),
    ) > 1
  );
}
