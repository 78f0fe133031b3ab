import type { transmittanceWeights } from '../metrics/index.js';
import { rowTrials } from '../uncertainty/index.js';
import type { BandTables } from './bandTables.js';
import type { LevelInputs } from './levelInputs.js';
import type { ScaleShifts } from './scaleShifts.js';

/** A band's tables, and where its inputs lie in the argument of its model. */
export interface PlacedInputs {
  readonly tables: BandTables;
  readonly lineWeights: readonly ReturnType<typeof transmittanceWeights>[];
  /** Pixels that are drawn. */
  readonly first: number;
  readonly end: number;
  readonly levels: LevelInputs;
  readonly shifts: ScaleShifts;
  readonly atLevels: number;
  readonly atScale: number;
  readonly atSpread: number;
  readonly atKind: number;
  readonly atSecond: number;
}

/** Numbers of a kind before those at the lines: width, centre, place and height of the peak. */
export const BEFORE_LINES = 4;

/** Writes width, centre and place of the peak of one trial, the scale's shifts in them: from `to` on, a row apart. */
export function writePlaces(
  shifts: ScaleShifts,
  x: Float64Array,
  from: number,
  { peakNm, blueNm, redNm }: { readonly peakNm: number; readonly blueNm: number; readonly redNm: number },
  out: Float64Array,
  to: number,
): void {
  const shiftAt = (nm: number): number => shifts.at(nm, x, from, rowTrials);
  const centreNm = (redNm + blueNm) / 2;
  out[to] = redNm - blueNm + shiftAt(redNm) - shiftAt(blueNm);
  out[to + rowTrials] = centreNm + shiftAt(centreNm);
  out[to + 2 * rowTrials] = peakNm + shiftAt(peakNm);
}

/** Rows of trials. */
export function rowsOf(rows: Float64Array, from: number, end: number): Float64Array {
  return rows.subarray(from * rowTrials, end * rowTrials);
}
