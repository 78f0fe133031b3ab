import { evaluatePolynomial, median } from '../numeric/index.js';
import { strongest } from './explainedShare.js';
import { gainTable } from './gainTable.js';
import { proposeScales, type SearchLamp } from './proposeScales.js';
import { refineScale } from './refineScale.js';
import type { LabelledLamp, NominalRange, RoughScale } from './roughScale.js';
import { lampGain } from './scoreScale.js';
import type { FoundLine } from './types.js';
import { type UsableLamp, usableLamp } from './usableLamp.js';

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
/** Lines that a scale is scored by. */
const SCORED_LINES = 36;
/** Lines scored in the search, and the placing error allowed there, nm. */
const SEARCHED_LINES = 24;
const SEARCH_TOLERANCE_NM = 0.45;
const ANCHOR_LINES = 13;

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
    .map((proposal) => refineScale(proposal, usable, pixels))
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

function ascending(lines: readonly FoundLine[]): number[] {
  return lines.map((line) => line.pixel).sort((a, b) => a - b);
}

/** Whether two scales give different names to the lines: their wavelengths there differ by more than a nanometre. */
function isAnother(a: RoughScale, b: RoughScale, lamps: readonly UsableLamp[]): boolean {
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
