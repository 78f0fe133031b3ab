import { refuse } from '../errors.js';
import { lineariseCounts } from './lineariseCounts.js';
import type { Detector, FrameEntry } from './types.js';
import { plainNumber } from './wording.js';

/** Places at which the polynomial is looked at, over the range of counts used. */
const places = 4096;

/**
 * Checks that the linearity polynomial is a correction over the counts that the frames hold: true counts above 0, and
 * more of them the more are measured. A polynomial carried beyond the counts it was fitted to often turns back.
 *
 * @param entries - the session's frames, raw counts
 * @param detector - its polynomial and its limit: counts above that are not used
 * @throws {BadInputError} the polynomial makes counts of 0 or below, or makes fewer of more, with the count where
 */
export function checkLinearity(entries: readonly FrameEntry[], detector: Detector): void {
  const { linearity, saturationCounts } = detector;
  if (linearity === null || linearity.length === 0) return;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { scans } of entries) {
    for (const { counts } of scans) {
      for (const value of counts) {
        if (!(value < saturationCounts)) continue;
        if (value < low) low = value;
        if (value > high) high = value;
      }
    }
  }
  if (!(high > low)) return;
  const measured = Float64Array.from({ length: places + 1 }, (_, k) => low + ((high - low) * k) / places);
  const made = lineariseCounts(measured, linearity);
  for (let k = 0; k <= places; k++) {
    const from = measured[k]!;
    const to = made[k]!;
    const found = `${plainNumber(from, 5)} measured counts`;
    const range = `the frames hold ${plainNumber(low, 5)} to ${plainNumber(high, 5)}`;
    const fix = 'correct the polynomial: true counts = measured x (p0 + p1 measured + ...)';
    if (from > 0 && !(to > 0)) {
      refuse('session.json', 'detector.linearity', `makes ${plainNumber(to, 5)} of ${found}; ${range}`, fix);
    }
    if (k > 0 && !(to > made[k - 1]!)) {
      const what = `makes fewer counts of more from ${found} on: it turns back there; ${range}`;
      refuse('session.json', 'detector.linearity', what, fix);
    }
  }
}
